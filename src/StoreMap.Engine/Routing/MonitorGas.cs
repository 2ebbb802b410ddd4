namespace StoreMap.Routing;

/// <summary>The gas the monitor is set to along a walk. Groups of no gas of their own (the zero, equipment of unknown systems) are read with
/// whatever it is set to.</summary>
internal static class MonitorGas
{
    /// <summary>The gas of each group; null where it is of no matter. A room's background is read as the first of its groups will be.</summary>
    public static Dictionary<string, string?> ByPoint(ProbeDraft draft)
    {
        var groups = draft.Groups.ToDictionary(g => g.Id);
        var served = draft.Departments.ToDictionary(d => d.Background, d => d.Groups.Select(id => groups[id].Gas).FirstOrDefault(g => g is not null));
        return draft.Groups.SelectMany(g => g.Points.Select(p => (Point: p, Gas: g.Gas ?? served.GetValueOrDefault(p))))
            .ToDictionary(x => x.Point, x => x.Gas);
    }

    /// <summary>The gas that most groups are read with; null when none has one.</summary>
    public static string? Usual(ProbeDraft draft) => draft.Groups.Where(g => g.Gas is not null).GroupBy(g => g.Gas)
        .OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).FirstOrDefault()?.Key;
}
