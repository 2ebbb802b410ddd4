using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Door cases: every third door cracked a hand's width, the tip low in the gap, and never fewer than one door a section.
/// Behind shut doors the air of a section mixes, so one door speaks for its neighbours.</summary>
internal static class DoorCaseMethod
{
    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture)
    {
        if (fixture.Front is not { } front) return [];
        var doors = Doors(draft, fixture, front.Length);
        var chosen = Chosen(fixture, doors, draft.Protocol.DoorEvery);
        var points = new List<ProbePoint>();
        foreach (var door in chosen)
        {
            if (!draft.HoldsRefrigerant(fixture, doors[door])) continue;
            var suffix = string.Create(CultureInfo.InvariantCulture, $"G{door + 1:00}");
            points.Add(FrontPass.At(draft, fixture, doors[door], suffix, ProbePass.Doors) with
            {
                Spot = Spot.DoorGap,
                Note = string.Create(CultureInfo.InvariantCulture, $"Door {door + 1} of {doors.Length}: crack it a hand's width, tip low in the gap, shut it again."),
            });
        }

        SecondaryLoop.NoteMissing(draft, fixture, chosen.Count - points.Count, points.Count);
        return LineDrops.Mark(draft, fixture, points);
    }

    /// <summary>Middles of all doors along the front, in order.</summary>
    public static double[] Doors(DraftBuilder draft, Fixture fixture, double length)
    {
        var count = fixture.Doors;
        if (count <= 0)
        {
            count = Math.Max(1, (int)Math.Round(length / draft.Protocol.DoorWidthMetres));
            draft.Note(fixture.Id, string.Create(CultureInfo.InvariantCulture, $"The layout counts no doors; {count} are assumed from the length."));
        }

        return [.. Enumerable.Range(0, count).Select(i => (i + 0.5) * length / count)];
    }

    /// <summary>The middle door of each run of <paramref name="every"/>, and the middle door of each section left without one.</summary>
    private static SortedSet<int> Chosen(Fixture fixture, double[] doors, int every)
    {
        var chosen = new SortedSet<int>();
        for (var first = 0; first < doors.Length; first += every) chosen.Add(first + ((Math.Min(every, doors.Length - first) - 1) / 2));
        foreach (var section in fixture.Sections)
        {
            var inside = Enumerable.Range(0, doors.Length).Where(d => doors[d] >= section.From && doors[d] < section.To).ToList();
            if (inside.Count > 0 && !inside.Exists(chosen.Contains)) chosen.Add(inside[(inside.Count - 1) / 2]);
        }

        return chosen;
    }
}
