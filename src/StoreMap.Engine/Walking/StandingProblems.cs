using System.Globalization;

namespace StoreMap.Walking;

/// <summary>Says which points were moved to free floor and which can't be reached.</summary>
internal static class StandingProblems
{
    /// <summary>A move shorter than this is rounding, metres.</summary>
    private const double Unmoved = 1e-6;

    public static List<Problem> Of(IReadOnlyList<Standing> standings, IReadOnlyList<string>? names)
    {
        var problems = new List<Problem>();
        if (standings.Count == 0) return problems;

        var home = Home(standings.Select(s => s.Region));
        for (var i = 0; i < standings.Count; i++)
        {
            var name = names?[i] ?? string.Create(CultureInfo.InvariantCulture, $"point {i + 1}");
            var (at, moved, region) = standings[i];
            var place = string.Create(CultureInfo.InvariantCulture, $"{at.X:0.###}, {at.Y:0.###} m");
            if (region != home)
            {
                problems.Add(new(Severity.Error, null, name, null, null, "point-unreachable",
                    $"{name} stands at {place}, on floor that can't be reached from the other points. Open a doorway on the plan, lower the clearance, or leave the point out."));
            }
            else if (moved > Unmoved)
            {
                problems.Add(new(Severity.Warning, null, name, null, null, "point-moved",
                    string.Create(CultureInfo.InvariantCulture, $"{name} is not on free floor; the feet stand {moved:0.###} m from it, at {place}.")));
            }
        }

        return problems;
    }

    /// <summary>The floor where most points stand, which is where the walk is: most points are right. Of equals the largest floor; null of none.</summary>
    public static int? Home(IEnumerable<int> regions) => regions.GroupBy(r => r).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).FirstOrDefault()?.Key;
}
