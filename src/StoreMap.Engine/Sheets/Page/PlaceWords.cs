using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Places on fixtures as people find them: section, panel, and tape distance from the left end facing the case.</summary>
internal static class PlaceWords
{
    /// <summary>The tag, with the name when there is one.</summary>
    public static string Case(Fixture fixture) => fixture.Name is null ? fixture.Tag : $"{fixture.Tag} {fixture.Name}";

    /// <summary>Number of the section at a place; null without sections.</summary>
    public static int? Section(Fixture fixture, double along) =>
        fixture.Sections.LastOrDefault(s => s.From <= along + 1e-9)?.Number ?? fixture.Sections.FirstOrDefault()?.Number;

    /// <summary>The panel at a place; null without panels.</summary>
    public static Panel? PanelAt(Fixture fixture, double along) =>
        fixture.Panels.LastOrDefault(p => p.From <= along + 1e-9) ?? fixture.Panels.FirstOrDefault();

    /// <summary>A panel's number, as its id ends.</summary>
    public static string PanelNumber(string panelId) => panelId[(panelId.LastIndexOf('/') + 1)..];

    /// <summary>The fixture of a panel, as its id begins.</summary>
    public static string CaseOf(string panelId) => panelId.LastIndexOf('/') is > 0 and var slash ? panelId[..slash] : panelId;

    /// <summary>Panels in their order by the store's tags, those that follow one another on a case together: "27A panel 3", "28 panels 5, 4".</summary>
    public static IReadOnlyList<string> Panels(Plan plan, Words words, IReadOnlyList<string> panelIds)
    {
        var runs = new List<(string Case, List<string> Numbers)>();
        foreach (var id in panelIds)
        {
            if (runs.Count == 0 || runs[^1].Case != CaseOf(id)) runs.Add((CaseOf(id), []));
            runs[^1].Numbers.Add(PanelNumber(id));
        }

        return [.. runs.Select(r => words.Say(r.Numbers.Count > 1 ? "place.panels-of" : "place.panel-of", plan.FindFixture(r.Case)?.Tag ?? r.Case, string.Join(", ", r.Numbers)))];
    }

    /// <summary>A place on a fixture: its case, and the distance from the left end where it has a front.</summary>
    public static string At(Plan plan, Words words, Fixture fixture, double? along, bool onBack) => fixture.Front is null || along is not { } at ? Case(fixture)
        : words.Say("place.at", Case(fixture), Lengths.Plain(plan.Units, fixture.FromLeft(at))) + (onBack ? words["walk.far-side"] : "");

    /// <summary>Where a probe point is: on a fixture, at equipment, or in a room's air.</summary>
    public static string Of(Plan plan, Words words, ProbePoint point)
    {
        if (plan.FindFixture(point.Fixture) is { } fixture) return At(plan, words, fixture, point.Along, point.OnBack) + SpotOf(words, point);
        if (point.Pass == ProbePass.Zero) return words["pass.zero"];
        return plan.Equipment.FirstOrDefault(e => e.Id == point.Equipment) is { } equipment ? Equipment(words, equipment) : RoomAir(plan, words, point.Room);
    }

    /// <summary>What tells a point from others at the same place; nothing for one at the front.</summary>
    public static string SpotOf(Words words, ProbePoint point) => point.Pass == ProbePass.LowHigh ? ", " + words["height." + point.Height.Kebab()]
        : point.Spot is Spot.Front or Spot.DoorGap ? "" : ", " + words["spot." + point.Spot.Kebab()];

    /// <summary>Equipment by its kind and id.</summary>
    public static string Equipment(Words words, Equipment equipment) => $"{words["equipment." + equipment.Kind.Kebab()]} {equipment.Id}";

    /// <summary>The air of a room, or of the sales floor.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="words">Language.</param>
    /// <param name="room">Id of the room; null for the sales floor.</param>
    public static string RoomAir(Plan plan, Words words, string? room) => words.Say("place.air", Room(plan, words, room));

    /// <summary>A room by its name, a walk-in as a case; null is the sales floor.</summary>
    public static string Room(Plan plan, Words words, string? id) =>
        id is null ? words["plan.sales-floor"] : plan.Rooms.FirstOrDefault(r => r.Id == id)?.Name ?? CompareNotes.Tag(plan, id);

    /// <summary>An interval along a front: section and distance from the left, no finer than the interval.</summary>
    public static string Interval(Plan plan, Words words, Fixture fixture, double from, double to, double center)
    {
        var half = (to - from) / 2;
        double a = fixture.FromLeft(from), b = fixture.FromLeft(to);
        var section = Section(fixture, center) is { } number && fixture.Sections.Count > 1 ? words.Say("place.section", number) + ", " : "";
        return section + words.Say(
            "place.from-left", Lengths.Tape(plan.Units, fixture.FromLeft(center), half), Lengths.Tape(plan.Units, Math.Min(a, b), half),
            Lengths.Tape(plan.Units, Math.Max(a, b), half));
    }
}
