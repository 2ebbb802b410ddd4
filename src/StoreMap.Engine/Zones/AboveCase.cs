namespace StoreMap.Zones;

/// <summary>Gas of a line above a case: it sinks over a stretch of it, is drawn in, and moves on with the case's own air.</summary>
internal static class AboveCase
{
    // Deviation of the stretch it sinks over, metres: sqrt(2 D t) of room air at 0.015 to 0.06 m2/s within the half minute to the minute
    // that sinking 1 to 3 m takes.
    private static readonly double[] Width = [1, 1.8];
    private static readonly double[] Reach = [0.55, 0.9, 1.5, 2.5];
    private static readonly double[] ReachWeight = [0.2, 0.3, 0.3, 0.2];
    private static readonly double[] Drift = [-0.35, 0, 0.35];
    private static readonly double[] DriftWeight = [0.25, 0.5, 0.25];
    private static readonly double[] StillDispersion = [0.002, 0.007];
    private static readonly double[] Pedestal = [0.05, 0.25, 1];
    private const double PedestalReach = 1.3;

    /// <summary>How much the log evidence of a trace's shape counts between a leak and a source above it: fan bays, gusts and draughts at the
    /// ends widen traces by more than the air model knows (judgement, after simulated results).</summary>
    private const double ShapeCounts = 0.5;

    /// <summary>Probability that a source is above a line-up and not in it.</summary>
    /// <param name="study">The line-up.</param>
    /// <param name="logOdds">Log of expectation times likelihood of the one, less that of the other.</param>
    public static double ShareOf(LineUpStudy study, double logOdds)
    {
        if (double.IsNegativeInfinity(logOdds)) return 0;
        var prior = Math.Log(study.ExpectedAbove.Sum() / study.Expected.Sum());
        return 1 / (1 + Math.Exp(-(prior + (ShapeCounts * (logOdds - prior)))));
    }

    /// <summary>Air settings with the fans running.</summary>
    public static AirSetting[] FansOn { get; } =
    [
        .. Width.SelectMany(w => Reach.SelectMany((r, i) => Drift.Select((d, j) =>
            new AirSetting(r, d, 0, ReachWeight[i] * DriftWeight[j] / Width.Length) { SourceWidth = w }))),
    ];

    /// <summary>Air settings in still air: what had spread before may be all there is for a while.</summary>
    public static AirSetting[] Still { get; } =
    [
        .. Width.SelectMany(w => StillDispersion.SelectMany(s => Pedestal.Select(p =>
            new AirSetting(PedestalReach, 0, 0, 1.0 / (Width.Length * StillDispersion.Length * Pedestal.Length)) { SourceWidth = w, StillDispersion = s, Pedestal = p }))),
    ];
}
