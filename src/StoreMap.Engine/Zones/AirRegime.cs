using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>One setting of the air inside a line-up.</summary>
/// <param name="Reach">Metres over which a leak's trace falls to 1/e in calm air, sqrt(D/k).</param>
/// <param name="Drift">Along-axis drift u / (2 sqrt(D k)), positive towards the axis' end.</param>
/// <param name="Blocking">Resistance of a section end in units of 1/<paramref name="Reach"/>: 0 open, 1 halves the trace.</param>
/// <param name="Weight">Prior probability of the setting; a regime's weights sum to 1.</param>
internal readonly record struct AirSetting(double Reach, double Drift, double Blocking, double Weight);

/// <summary>The prior over air settings in one air state, a small grid over which the posterior is summed.</summary>
internal static class AirRegime
{
    // Log-normal round 4 ft with log-sd 0.6 (docs/zones.md), on four points.
    private static readonly double[] FansOnReach = [0.55, 0.9, 1.5, 2.5];

    // A leak into still air seen 1 to 10 minutes after the fans stopped: half-width 0.3 to 0.94 m.
    private static readonly double[] StillReach = [0.22, 0.4, 0.7, 1.3];
    private static readonly double[] ReachWeight = [0.2, 0.3, 0.3, 0.2];
    private static readonly double[] Drift = [-0.8, -0.35, 0, 0.35, 0.8];
    private static readonly double[] DriftWeight = [0.1, 0.22, 0.36, 0.22, 0.1];
    private static readonly double[] StillDrift = [-0.35, 0, 0.35];
    private static readonly double[] StillDriftWeight = [0.25, 0.5, 0.25];
    private static readonly double[] Blocking = [0, 1.5];
    private static readonly double[] BlockingWeight = [0.5, 0.5];

    /// <summary>Air settings with the fans running.</summary>
    public static AirSetting[] FansOn { get; } = Grid(FansOnReach, Drift, DriftWeight);

    /// <summary>Air settings in still air.</summary>
    public static AirSetting[] Still { get; } = Grid(StillReach, StillDrift, StillDriftWeight);

    /// <summary>True when the air moved: fans on, or an off-cycle defrost, which runs the fans.</summary>
    public static bool IsFansOn(Reading reading) =>
        reading.Air == AirState.FansOn || (reading.Air == AirState.Defrost && reading.Detail?.Cooling is "off-cycle" or "off");

    private static AirSetting[] Grid(double[] reach, double[] drift, double[] driftWeight)
    {
        var settings = new List<AirSetting>();
        for (var l = 0; l < reach.Length; l++)
        {
            for (var d = 0; d < drift.Length; d++)
            {
                for (var b = 0; b < Blocking.Length; b++)
                {
                    settings.Add(new AirSetting(reach[l], drift[d], Blocking[b], ReachWeight[l] * driftWeight[d] * BlockingWeight[b]));
                }
            }
        }

        return [.. settings];
    }
}
