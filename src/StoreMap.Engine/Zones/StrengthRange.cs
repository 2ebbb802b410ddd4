using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>A rough strength with its honest range, kilograms a year.</summary>
/// <param name="Low">5 % point.</param>
/// <param name="Middle">Median.</param>
/// <param name="High">95 % point.</param>
internal readonly record struct StrengthRange(double Low, double Middle, double High)
{
    private const double FirstLog = -4;
    private const double StepLog = 0.05;
    private const int Steps = 320;
    private const int Points = 48;

    /// <summary>Deviation of the logarithm of strength seen in still air alone: cross-section and dispersion are guesses, and the coil's
    /// pressure is another one than with the fans on.</summary>
    private const double StillLogDeviation = 0.9;

    /// <summary>Cross-section of a case's air, m².</summary>
    private const double StillSection = 0.6;

    /// <summary>The strength of one leak: what its trace stands for in the air of its space, the unknown exchange of that air, the
    /// prior of leaks, and the charge, if known, that a leak cannot lose many times a year.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="fixture">Its fixture.</param>
    /// <param name="along">Metres along the front.</param>
    /// <param name="study">The line-up.</param>
    /// <param name="leak">Its posterior.</param>
    /// <param name="inBase">Probability that it is in the base.</param>
    public static StrengthRange Of(Plan plan, Fixture fixture, double along, LineUpStudy study, OneLeak leak, double inBase)
    {
        var block = Math.Max(0, study.Blocks.ToList().FindIndex(b => b.FansOn));
        var density = new double[Steps];
        for (var kind = 0; kind < LineUpStudy.CaseKinds; kind++)
        {
            var share = kind == 0 ? 1 - inBase : inBase;
            if (share < 0.01) continue;
            var points = leak.Points(kind, block, Points);
            foreach (var point in points)
            {
                var setting = study.Fits[kind][block].Settings[point.Setting];
                var (log, deviation) = Measured(plan, fixture, along, setting, kind == 1);
                if (kind == 1 && !study.TellsBase) deviation = Math.Sqrt((deviation * deviation) + (AirSetting.CrossLogDeviation * AirSetting.CrossLogDeviation));
                Add(density, point.LogStrength + log, deviation, share / points.Count);
            }
        }

        if (density.Sum() <= 0) Add(density, RoughStrength.PriorLogMean, 30, 1);
        var charge = fixture.ChargeKilograms ?? plan.SystemAt(fixture, along)?.ChargeKilograms;
        for (var i = 0; charge is > 0 && i < Steps; i++) density[i] /= 1 + Math.Pow(Math.Exp(LogAt(i)) / charge.Value, 3);
        return new StrengthRange(Quantile(density, 0.05), Quantile(density, 0.5), Quantile(density, 0.95));
    }

    private static (double Log, double Deviation) Measured(Plan plan, Fixture fixture, double along, AirSetting setting, bool basePiping)
    {
        if (basePiping) return (Math.Log(RoughStrength.PerPeakPpm(plan, fixture, along, setting.Reach, true)), BaseAir.ExchangeDeviation);
        if (setting.StillDispersion <= 0) return (Math.Log(RoughStrength.PerPeakPpm(plan, fixture, along, setting.Reach)), RoughStrength.ExchangeLogDeviation);
        var flow = StillSection / StillAir.UnitPeak(setting.StillDispersion);
        return (Math.Log(RoughStrength.KilogramsPerYear(1, flow, RoughStrength.MolarMassAt(plan, fixture, along), RoughStrength.KelvinOf(fixture))), StillLogDeviation);
    }

    // The measured logarithm and the prior of leaks, both normal, make a normal one.
    private static void Add(double[] density, double log, double deviation, double weight)
    {
        const double prior = RoughStrength.PriorLogDeviation * RoughStrength.PriorLogDeviation;
        var measured = deviation * deviation;
        var variance = 1 / ((1 / prior) + (1 / measured));
        var mean = variance * ((RoughStrength.PriorLogMean / prior) + (log / measured));
        for (var i = 0; i < Steps; i++)
        {
            var d = LogAt(i) - mean;
            density[i] += weight / Math.Sqrt(variance) * Math.Exp(-0.5 * d * d / variance);
        }
    }

    private static double Quantile(double[] density, double share)
    {
        var left = share * density.Sum();
        for (var i = 0; i < Steps; i++)
        {
            if (left <= density[i]) return Math.Exp(LogAt(i) + (StepLog * ((left / density[i]) - 0.5)));
            left -= density[i];
        }

        return Math.Exp(LogAt(Steps - 1));
    }

    private static double LogAt(int i) => FirstLog + (i * StepLog);
}
