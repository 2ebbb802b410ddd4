using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The call-outs of leak zones: case, chance, where, which panel to lift, why.</summary>
internal static class ZoneNotes
{
    /// <summary>Panels less likely than this are named nowhere, so that all pages name the same.</summary>
    public const double WorthNaming = 0.01;

    /// <summary>A page for the manager and the repair cards tell leaks and sources at least this likely, and the likeliest leak; the
    /// findings table has them all.</summary>
    public const double WorthTelling = 0.3;

    /// <summary>A source this near a front, on the plan, is told by its distance along it, metres.</summary>
    private const double BesideMetres = 2;

    /// <summary>How rough that distance is, metres.</summary>
    private const double AboutMetres = 0.5;

    public static IEnumerable<FlowItem> Items(Plan plan, NetSurvey net, LocateResult located, Words words)
    {
        foreach (var item in Callouts(plan, net, located, words, int.MaxValue, false)) yield return item;
        if (located.Zones.Any(z => z.From is not null)) yield return NoteItems.Muted(words["zone.left-end"]);
        if (located.Next is { } next) yield return NoteItems.Line(Next(plan, words, next), 1);
    }

    /// <summary>The heading and the call-outs, cut after some; brief ones lead to the sheets that say more.</summary>
    public static IEnumerable<FlowItem> Callouts(Plan plan, NetSurvey net, LocateResult located, Words words, int most, bool brief)
    {
        yield return NoteItems.Heading(words["zone.heading"]);
        if (located.Zones.Count == 0 && located.Elsewhere.Count == 0) yield return NoteItems.Line(words[net.Readings.Any(r => r.IsHit) ? "zone.none-hits" : "zone.none"]);
        var shown = located.Zones.Index().Where(z => !brief || IsTold(z.Index, z.Item)).Take(most).ToList();
        foreach (var (i, zone) in shown)
        {
            if (plan.FindFixture(zone.Fixture) is { } fixture) yield return new CalloutItem(LeakLetters.Of(i), brief ? Brief(plan, net, located, words, fixture, zone) : Lines(plan, net, located, words, fixture, zone), brief ? LeakZoneSheet.NameOf(i) : null) { After = 1.4 };
        }

        var room = Math.Min(Math.Max(1, most - shown.Count), located.Elsewhere.Count);
        for (var i = 0; i < room; i++)
        {
            var elsewhere = located.Elsewhere[i];
            yield return new CalloutItem(LeakLetters.Of(located.Zones.Count + i), ElsewhereLines(plan, words, elsewhere), brief ? HeatMapSheet.Name : null) { After = 1.4 };
        }

        // What is likely is named all the same.
        var named = shown.Select(z => z.Index).ToHashSet();
        var likely = brief ? located.Zones.Index().Where(z => !named.Contains(z.Index) && IsTold(z.Index, z.Item)).Select(z => $"{LeakLetters.Of(z.Index)} {plan.FindFixture(z.Item.Fixture)?.Tag}").ToList() : [];
        if (likely.Count > 0) yield return NoteItems.Line(words.Say("zone.also", string.Join(", ", likely)));
        var left = located.Zones.Count - shown.Count - likely.Count + located.Elsewhere.Count - room;
        if (left > 0) yield return NoteItems.Muted(words.Say("zone.more", Numbers.Whole(left)));
    }

    /// <summary>The head line and the details of one zone.</summary>
    public static IReadOnlyList<string> Lines(Plan plan, NetSurvey net, LocateResult located, Words words, Fixture fixture, LeakZone zone)
    {
        var lines = new List<string> { Head(located, words, fixture, zone) };
        var peak = words.Say("zone.peak", Peak(net, zone, words), words["strength." + zone.Strength]);
        lines.AddRange(Place(plan, words, fixture, zone));
        lines.Add((Lift(words, located, zone) + " " + peak).TrimStart());
        return lines;
    }

    /// <summary>Head line, place and peak, for a page that says elsewhere what to lift.</summary>
    private static IReadOnlyList<string> Brief(Plan plan, NetSurvey net, LocateResult located, Words words, Fixture fixture, LeakZone zone) =>
    [
        Head(located, words, fixture, zone),
        $"{string.Concat(Place(plan, words, fixture, zone))}. {words.Say("zone.peak", Peak(net, zone, words), words["strength." + zone.Strength])}",
    ];

    /// <summary>Whose leak and how likely.</summary>
    private static string Head(LocateResult located, Words words, Fixture fixture, LeakZone zone) => LiftedNotes.FoundOf(located, zone) is { } found
        ? words.Say("zone.head-confirmed", PlaceWords.Case(fixture), PlaceWords.PanelNumber(found.Panel))
        : words.Say(located.IsFurther(zone) ? "zone.head-further" : "zone.head", PlaceWords.Case(fixture), words.Chance(zone.Probability));

    /// <summary>True for a leak that the manager is told of and that gets a repair card.</summary>
    public static bool IsTold(int index, LeakZone zone) => index == 0 || zone.Probability >= WorthTelling;

    /// <summary>The leaks that the manager is told of.</summary>
    public static IEnumerable<LeakZone> Told(LocateResult located) => located.Zones.Where((z, i) => IsTold(i, z));

    /// <summary>True where what is said of a leak's place must begin with "if".</summary>
    public static bool IsDoubtful(LeakZone zone) => zone.Probability < 0.5;

    /// <summary>Where a zone lies.</summary>
    public static IEnumerable<string> Place(Plan plan, Words words, Fixture fixture, LeakZone zone) =>
    [
        zone is { From: { } from, To: { } to, Center: { } center }
            ? Words.Sentence(PlaceWords.Interval(plan, words, fixture, from, to, center))
            : words.Say("zone.walk-in", Lengths.Tape(plan.Units, zone.Radius ?? 0, zone.Radius ?? 0)),
    ];

    /// <summary>The zone's panels in the order of opening.</summary>
    public static IEnumerable<PanelChance> InOrder(LocateResult located, LeakZone zone)
    {
        var order = located.Open.Distinct().Index().ToDictionary(o => o.Item, o => o.Index);
        return zone.Panels.Where(p => p.Probability >= WorthNaming).OrderBy(p => order.GetValueOrDefault(p.Id, int.MaxValue)).ThenByDescending(p => p.Probability);
    }

    /// <summary>The highest reading of a zone; "over" the end of its range where the monitor could show no more.</summary>
    public static string Peak(NetSurvey net, LeakZone zone, Words words)
    {
        var own = net.Readings.Where(r => r.Reading.Place.Fixture == zone.Fixture).ToList();
        if (own.Count > 0 && own.TrueForAll(r => r.HitOnly)) return words["zone.hit-only"];
        if (!zone.PeakOverRange) return words.Say("zone.above-room", Numbers.Ppm(zone.PeakPpm));
        // What the monitor showed, not what is left of it above the room.
        return words.Say("zone.over", Numbers.Ppm(net.Readings.Where(r => r.Bound == ReadingBound.AtLeast && r.NetPpm <= zone.PeakPpm).Max(r => r.Reading.Ppm)));
    }

    /// <summary>A panel's edges from the left end.</summary>
    public static string PanelSpan(Plan plan, Fixture fixture, PanelChance panel)
    {
        double a = fixture.FromLeft(panel.From), b = fixture.FromLeft(panel.To);
        return $"{Lengths.Plain(plan.Units, Math.Min(a, b))} – {Lengths.Plain(plan.Units, Math.Max(a, b))}";
    }

    /// <summary>Which panel first, which next, and what lifting has shown so far.</summary>
    public static string Lift(Words words, LocateResult located, LeakZone zone)
    {
        var panels = LiftedNotes.Left(located, zone).Take(2).ToList();
        var lifted = LiftedNotes.Of(located, zone, words);
        if (panels.Count == 0) return lifted;
        var first = PlaceWords.PanelNumber(panels[0].Id);
        var lift = panels.Count > 1 && panels[1].Probability >= 0.05
            ? words.Say("zone.then", first, PlaceWords.PanelNumber(panels[1].Id))
            : words.Say("zone.open-first", first);
        return (lift + " " + lifted).TrimEnd();
    }

    /// <summary>Gas whose source is probably not in a case: how likely, and where to look.</summary>
    public static IReadOnlyList<string> ElsewhereLines(Plan plan, Words words, Elsewhere elsewhere)
    {
        var near = plan.FindFixture(elsewhere.Near) is { } fixture
            ? PlaceWords.Case(fixture)
            : plan.Rooms.FirstOrDefault(r => r.Id == elsewhere.Near)?.Name ?? elsewhere.Near;
        return [words.Say("zone.elsewhere", near, words.Chance(elsewhere.Probability)), LookLine(plan, words, elsewhere)];
    }

    /// <summary>What to look at for a source outside a case, with about where along the case when it is beside or above its front.</summary>
    public static string LookLine(Plan plan, Words words, Elsewhere elsewhere)
    {
        var look = words.Remark(elsewhere.Look);
        if (elsewhere.At is not { } at || plan.FindFixture(elsewhere.Near) is not { Front: { } front } fixture) return words.Say("zone.look", look);
        var along = front.Project(at).Along;
        return front.PointAt(along).DistanceTo(at) < BesideMetres
            ? words.Say("zone.look-at", look, Lengths.Tape(plan.Units, fixture.FromLeft(along), AboutMetres), fixture.Tag)
            : words.Say("zone.look", look);
    }

    /// <summary>Where to probe next, and what must be done first when fans stop for it.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="words">Language.</param>
    /// <param name="next">The probe.</param>
    /// <param name="onItsSheet">True where the sheet is the case's own and need not name it.</param>
    public static string Next(Plan plan, Words words, NextProbe next, bool onItsSheet = false)
    {
        var text = words.Say("zone.next", NextPlace(plan, words, next, onItsSheet));
        if (next.Spot == Spot.Ceiling) text += " " + words.Say("zone.next-overhead", Lengths.Tape(plan.Units, NextProbe.SweepMetres, 0.1));
        if (next.Air == AirState.FansOn) return text;
        text += " " + words["zone.next-fans"];
        var shared = Supply.SharedWith(plan, plan.FindFixture(next.Fixture)).Select(f => f.Tag).ToList();
        return shared.Count == 0 ? text : text + " " + words.Say("zone.next-shared", string.Join(", ", shared));
    }

    private static string NextPlace(Plan plan, Words words, NextProbe next, bool onItsSheet)
    {
        var fixture = plan.FindFixture(next.Fixture);
        var air = words["air." + next.Air.Kebab()];
        if (fixture is null) return words.Say("zone.next-open", air);
        var spot = words["spot." + next.Spot.Kebab()];
        if (next.Along is not { } along || fixture.Front is null) return words.Say("zone.next-walk-in", PlaceWords.Case(fixture), spot, air);
        var tape = Lengths.Tape(plan.Units, fixture.FromLeft(along), 0.1);
        return onItsSheet ? words.Say("zone.next-here", tape, spot, air) : words.Say("zone.next-case", PlaceWords.Case(fixture), tape, spot, air);
    }
}
