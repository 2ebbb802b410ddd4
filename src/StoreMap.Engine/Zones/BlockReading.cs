using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>A net reading as the likelihood sees it.</summary>
internal sealed record BlockReading
{
    /// <summary>The reading it comes from.</summary>
    public required NetReading Source { get; init; }

    /// <summary>Metres along the line-up's axis; 0 off a front.</summary>
    public required double S { get; init; }

    /// <summary>Net ppm, or the bound.</summary>
    public required double Net { get; init; }

    /// <summary>Additive standard deviation, ppm.</summary>
    public required double Deviation { get; init; }

    /// <summary>How <see cref="Net"/> bounds the truth.</summary>
    public required ReadingBound Bound { get; init; }

    /// <summary>What the spot shows of the case air.</summary>
    public required SpotView View { get; init; }

    /// <summary>Seconds since the fans stopped; null with the fans running.</summary>
    public double? StillSeconds { get; init; }

    /// <summary>What the reading shows for a source of strength 1 in each cell of its line-up.</summary>
    public void Response(LineUpAxis axis, AirSetting setting, Span<double> response)
    {
        if (StillSeconds is { } seconds) StillAir.Response(axis, setting, S, seconds, response);
        else CaseAir.Response(axis, setting, S, response);
    }

    /// <summary>Where the probe was, plan metres.</summary>
    public PlanPoint At => Source.Reading.Place.At;
}

/// <summary>What share of a case's air a spot shows, for a leak at the coil and for one in the base piping.</summary>
/// <param name="Coil">Factor for a leak at coil, pans or grilles.</param>
/// <param name="Base">Factor for a leak in the base: headers, kick plate, drain.</param>
/// <param name="LogVariance">Variance of the factor's logarithm, from spot to spot.</param>
internal readonly record struct SpotView(double Coil, double Base, double LogVariance)
{
    /// <summary>The view of a reading. Factors are stated assumptions (docs/zones.md), wide enough not to matter much.</summary>
    public static SpotView Of(Reading reading)
    {
        var back = reading.Place.OnBack ? 0.15 : 0;
        var low = reading.Height == ProbeHeight.Low;
        return reading.Spot switch
        {
            Spot.Return => new(1, 0.5, 0.04 + back),
            Spot.Discharge => new(0.9, 0.4, 0.12 + back),
            Spot.KickPlate => new(0.4, 1.5, 0.2 + back),
            Spot.Perimeter => new(0.5, 1.2, 0.1 + back),
            Spot.Drain => new(0.8, 1.3, 0.2 + back),
            Spot.Ceiling => new(0.1, 0.05, 0.6 + back),
            Spot.LineDrop => new(0.7, 0.8, 0.3 + back),
            Spot.Deck or Spot.CoilEnd or Spot.ValveEnd or Spot.Joint => new(1, 0.8, 0.15 + back),
            _ => low ? new(1, 1.1, back) : new(1, 0.8, back),
        };
    }
}
