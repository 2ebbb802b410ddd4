namespace StoreMap.Plans;

/// <summary>Bounds the comparing of shapes pair by pair: counted in corners compared, far above any real store and a few seconds at most.</summary>
/// <param name="corners">Corners that may be compared.</param>
internal sealed class PairBudget(long corners)
{
    private long left = corners;

    /// <summary>Spends what comparing two rings takes.</summary>
    /// <returns>False, with an error the first time, when the budget is used up.</returns>
    public bool Spend(IReadOnlyList<PlanPoint> a, IReadOnlyList<PlanPoint> b, ProblemList problems)
    {
        if (left < 0) return false;
        left -= a.Count + b.Count;
        if (left >= 0) return true;
        problems.Error(null, null, null, "too-entangled", "So many outlines lie across each other that they can't be checked in reasonable time. Leave out what is no wall, room or fixture.");
        return false;
    }
}
