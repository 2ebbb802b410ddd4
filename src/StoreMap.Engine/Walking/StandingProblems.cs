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

        // Most points are right; where most of them stand is where the walk is. Of equals the largest floor.
        var home = standings.GroupBy(s => s.Region).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
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
}
