using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>The prior over air settings in one air state, a small grid over which the posterior is summed.</summary>
internal static class AirRegime
{
    // Log-normal round 4 ft with log-sd 0.6 (docs/zones.md), on four points.
    private static readonly double[] FansOnReach = [0.55, 0.9, 1.5, 2.5];

    private static readonly double[] ReachWeight = [0.2, 0.3, 0.3, 0.2];
    private static readonly double[] Drift = [-0.8, -0.35, 0, 0.35, 0.8];
    private static readonly double[] DriftWeight = [0.1, 0.22, 0.36, 0.22, 0.1];
    // Indoor eddy dispersion in still air, 0.001 to 0.013 m²/s (Cheng et al. 2011).
    private static readonly double[] StillDispersion = [0.0012, 0.0025, 0.005, 0.01];
    private static readonly double[] StillSpeed = [-0.003, 0, 0.003];
    private static readonly double[] StillSpeedWeight = [0.25, 0.5, 0.25];
    private static readonly double[] Pedestal = [0.03, 0.1, 0.25];
    private static readonly double[] PedestalWeight = [0.35, 0.4, 0.25];
    private static readonly double[] Return = [0.02, 0.15];
    private static readonly double[] ReturnWeight = [0.6, 0.4];

    // The trace left over from the fans: about the middle reach.
    private const double PedestalReach = 1.3;
    private static readonly double[] Blocking = [0, 1.5];
    private static readonly double[] BlockingWeight = [0.5, 0.5];

    /// <summary>Air settings with the fans running.</summary>
    public static AirSetting[] FansOn { get; } = FansOnGrid();

    /// <summary>Air settings in still air.</summary>
    public static AirSetting[] Still { get; } = StillGrid();

    /// <summary>Air settings for a source in one air state; what is in the base does not feel the fans.</summary>
    public static AirSetting[] Of(SourceKind kind, bool fansOn) => kind switch
    {
        SourceKind.Base => BaseAir.Settings,
        SourceKind.Above => fansOn ? AboveCase.FansOn : AboveCase.Still,
        _ => fansOn ? FansOn : Still,
    };

    /// <summary>True when the air moved: fans on, or an off-cycle defrost, which runs the fans.</summary>
    public static bool IsFansOn(Reading reading) =>
        reading.Air == AirState.FansOn || (reading.Air == AirState.Defrost && reading.Detail?.Cooling is "off-cycle" or "off");

    private static AirSetting[] FansOnGrid()
    {
        var settings = new List<AirSetting>();
        for (var l = 0; l < FansOnReach.Length; l++)
        {
            for (var d = 0; d < Drift.Length; d++)
            {
                for (var b = 0; b < Blocking.Length; b++)
                {
                    for (var r = 0; r < Return.Length; r++)
                    {
                        var weight = ReachWeight[l] * DriftWeight[d] * BlockingWeight[b] * ReturnWeight[r];
                        settings.Add(new AirSetting(FansOnReach[l], Drift[d], Blocking[b], weight) { Return = Return[r] });
                    }
                }
            }
        }

        return [.. settings];
    }

    private static AirSetting[] StillGrid()
    {
        var settings = new List<AirSetting>();
        for (var d = 0; d < StillDispersion.Length; d++)
        {
            for (var u = 0; u < StillSpeed.Length; u++)
            {
                for (var p = 0; p < Pedestal.Length; p++)
                {
                    for (var b = 0; b < Blocking.Length; b++)
                    {
                        settings.Add(new AirSetting(PedestalReach, 0, Blocking[b], ReachWeight[d] * StillSpeedWeight[u] * PedestalWeight[p] * BlockingWeight[b])
                        {
                            StillDispersion = StillDispersion[d], StillSpeed = StillSpeed[u], Pedestal = Pedestal[p],
                        });
                    }
                }
            }
        }

        return [.. settings];
    }
}
