using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Which of a case's sections stay when their lengths are typed anew: the fewest are put in, taken out or changed in length, as in the
/// edit distance of Wagner and Fischer (1974), the earlier ones kept where it is all the same. Lengths in the layout's unit.</summary>
internal sealed class SectionChange
{
    // Below this two lengths are one.
    private const double Same = 1e-3;

    private readonly IReadOnlyList<double> before;
    private readonly IReadOnlyList<double> after;
    private readonly double[] cutsBefore;
    private readonly double[] cutsAfter;
    private readonly int?[] kept;

    /// <summary>Compares sections along a front before and after.</summary>
    /// <param name="before">One or more lengths.</param>
    /// <param name="frontBefore">Length of the front, end panels among it.</param>
    /// <param name="after">One or more lengths.</param>
    /// <param name="frontAfter">Likewise.</param>
    public SectionChange(IReadOnlyList<double> before, double frontBefore, IReadOnlyList<double> after, double frontAfter)
    {
        (this.before, this.after) = (before, after);
        (cutsBefore, cutsAfter) = (LengthFit.Cuts(before, frontBefore), LengthFit.Cuts(after, frontAfter));
        kept = Kept();
    }

    /// <summary>For each new section the place of the old one that it is; null for one that was put in.</summary>
    public IReadOnlyList<int?> From => kept;

    /// <summary>For each new section the old one that it is, or that stands next to it.</summary>
    public IEnumerable<int> FromOrBeside =>
        Enumerable.Range(0, kept.Length).Select(i => kept[i] ?? kept[..i].LastOrDefault(k => k is not null) ?? kept[i..].FirstOrDefault(k => k is not null) ?? 0);

    /// <summary>True when a new section is an old one of the same length.</summary>
    public bool IsWhole(int section) => kept[section] is { } old && IsSame(old, section);

    /// <summary>Where a place along the front comes to; null when its section is taken out.</summary>
    /// <param name="along">From the beginning of the front.</param>
    /// <param name="toTheLeft">True for the end of something: on a joint it belongs to the section before.</param>
    public double? Place(double along, bool toTheLeft = false)
    {
        var section = 0;
        while (section + 1 < before.Count && (toTheLeft ? cutsBefore[section + 1] < along - Same : cutsBefore[section + 1] <= along + Same)) section++;
        var now = Array.IndexOf(kept, section);
        return now < 0 ? null : Math.Min(cutsAfter[now] + Math.Max(0, along - cutsBefore[section]), cutsAfter[now + 1]);
    }

    private int?[] Kept()
    {
        var cost = new int[before.Count + 1, after.Count + 1];
        for (var i = before.Count; i >= 0; i--)
        {
            for (var j = after.Count; j >= 0; j--)
            {
                cost[i, j] = i == before.Count ? after.Count - j : j == after.Count ? before.Count - i
                    : Math.Min(Stay(i, j) + cost[i + 1, j + 1], 1 + Math.Min(cost[i + 1, j], cost[i, j + 1]));
            }
        }

        var from = new int?[after.Count];
        for (int i = 0, j = 0; i < before.Count && j < after.Count;)
        {
            if (cost[i, j] == Stay(i, j) + cost[i + 1, j + 1]) from[j++] = i++;
            else if (cost[i, j] == 1 + cost[i + 1, j]) i++;
            else j++;
        }

        return from;
    }

    private int Stay(int old, int now) => IsSame(old, now) ? 0 : 1;

    private bool IsSame(int old, int now) => Math.Abs(before[old] - after[now]) < Same;
}
