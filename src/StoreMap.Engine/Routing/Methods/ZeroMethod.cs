using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Warm-up and zero in clean air at the first entrance, before anything is probed.</summary>
internal static class ZeroMethod
{
    public static ProbePoint Point(DraftBuilder draft)
    {
        var entrance = draft.Plan.Entrances.FirstOrDefault();
        var at = entrance?.At ?? LowestWall(draft.Plan.Outline);
        var minutes = draft.Protocol.WarmUpMinutes;
        var where = entrance is null ? "Outdoors, away from vents (the plan shows no entrance)" : "Outdoors at the entrance, away from vents and exhausts";
        return draft.At(draft.IdFor("zero", entrance?.Id ?? "1"), ProbePass.Zero, at, new(0, 0), draft.Protocol.ZeroMinutes * 60) with
        {
            Room = null,
            Note = FormattableString.Invariant($"{where}: warm the monitor up for {minutes:0.#} min, then zero it in clean air."),
        };
    }

    /// <summary>The middle of the outline's lowest edge, where the front of a store is usually drawn.</summary>
    private static PlanPoint LowestWall(IReadOnlyList<PlanPoint> outline) => Enumerable.Range(0, outline.Count)
        .Select(i => new PlanSegment(outline[i], outline[(i + 1) % outline.Count]).Middle).OrderBy(m => m.Y).ThenBy(m => m.X).First();
}
