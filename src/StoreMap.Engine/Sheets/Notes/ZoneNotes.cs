using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The call-outs of leak zones: case, chance, where, which panel to lift, why.</summary>
internal static class ZoneNotes
{
    public static IEnumerable<FlowItem> Items(Plan plan, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["zone.heading"]);
        if (located.Zones.Count == 0 && located.Elsewhere.Count == 0) yield return NoteItems.Line(words["zone.none"]);
        for (var i = 0; i < located.Zones.Count; i++)
        {
            var zone = located.Zones[i];
            if (plan.FindFixture(zone.Fixture) is { } fixture) yield return new CalloutItem(ZonesPass.Letter(i), Lines(plan, words, fixture, zone)) { After = 1.4 };
        }

        for (var i = 0; i < located.Elsewhere.Count; i++)
        {
            var elsewhere = located.Elsewhere[i];
            yield return new CalloutItem(ZonesPass.Letter(located.Zones.Count + i), ElsewhereLines(plan, words, elsewhere)) { After = 1.4 };
        }

        if (located.Zones.Any(z => z.From is not null)) yield return NoteItems.Muted(words["zone.left-end"]);
        if (located.Next is { } next) yield return NoteItems.Line(words.Say("zone.next", NextPlace(plan, words, next), next.Why), 1);
    }

    /// <summary>The head line and the details of one zone.</summary>
    public static IReadOnlyList<string> Lines(Plan plan, Words words, Fixture fixture, LeakZone zone)
    {
        var lines = new List<string> { words.Say("zone.head", PlaceWords.Case(fixture), Numbers.Chance(zone.Probability)) };
        var peak = words.Say("zone.peak", Numbers.Ppm(zone.PeakPpm), words["strength." + zone.Strength]);
        if (zone is { From: { } from, To: { } to, Center: { } center })
        {
            lines.Add(PlaceWords.Interval(plan, words, fixture, from, to, center));
            lines.Add((Lift(words, zone) + " " + peak).TrimStart());
        }
        else
        {
            lines.Add(words.Say("zone.walk-in", Lengths.Tape(plan.Units, zone.Radius ?? 0, zone.Radius ?? 0)));
            lines.Add(peak);
        }

        return lines;
    }

    /// <summary>Which panel first, which next.</summary>
    private static string Lift(Words words, LeakZone zone)
    {
        var panels = zone.Panels.OrderByDescending(p => p.Probability).Take(2).ToList();
        if (panels.Count == 0) return "";
        var first = PlaceWords.PanelNumber(panels[0].Id);
        return panels.Count > 1 && panels[1].Probability >= 0.05
            ? words.Say("zone.then", first, PlaceWords.PanelNumber(panels[1].Id))
            : words.Say("zone.open-first", first);
    }

    public static IReadOnlyList<string> ElsewhereLines(Plan plan, Words words, Elsewhere elsewhere)
    {
        var near = plan.FindFixture(elsewhere.Near) is { } fixture
            ? PlaceWords.Case(fixture)
            : plan.Rooms.FirstOrDefault(r => r.Id == elsewhere.Near)?.Name ?? elsewhere.Near;
        return [words.Say("zone.elsewhere", near, Numbers.Chance(elsewhere.Probability)), words.Say("zone.look", elsewhere.Look)];
    }

    public static string NextPlace(Plan plan, Words words, NextProbe next)
    {
        var fixture = plan.FindFixture(next.Fixture);
        var air = words["air." + next.Air.Kebab()];
        if (fixture is null) return words.Say("zone.next-open", air);
        return next.Along is { } along && fixture.Front is not null
            ? words.Say("zone.next-case", PlaceWords.Case(fixture), Lengths.Tape(plan.Units, fixture.FromLeft(along), 0.1), words["spot." + next.Spot.Kebab()], air)
            : words.Say("zone.next-walk-in", PlaceWords.Case(fixture), words["spot." + next.Spot.Kebab()], air);
    }
}
