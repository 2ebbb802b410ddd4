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

    /// <summary>True when only hit or no hit is known; <see cref="Net"/> then holds the level that divides them, known roughly.</summary>
    public bool HitOnly { get; init; }

    /// <summary>Chance that a reading of carry-over shows the place's own gas after all, in [0, 1); 0 for others, and where nothing is known.</summary>
    public double Cleared { get; init; }

    /// <summary>Carry-over of at least this chance of being the place's own gas counts as gas seen.</summary>
    private const double ClearedEnough = 0.4;

    /// <summary>True when the reading shows gas here: at or over the detection level, and not carry-over read too soon to tell.</summary>
    public bool ShowsGas => (Bound != ReadingBound.Below || Cleared >= ClearedEnough) && Net >= Source.DetectionPpm;

    /// <summary>True for a tip at a fixture.</summary>
    public bool InCase => Source.Reading.Place.Fixture is not null;

    /// <summary>Where the probe was, plan metres.</summary>
    public PlanPoint At => Source.Reading.Place.At;
}

/// <summary>Where the source of a line-up's gas is.</summary>
internal enum SourceKind
{
    /// <summary>At the coil or its joints: in the case's moving air.</summary>
    Coil,

    /// <summary>In the piping of the base.</summary>
    Base,

    /// <summary>Above the case, whose fans draw the gas in.</summary>
    Above,
}

/// <summary>What a spot shows of the two spaces of a case: its moving air, and its base (kick plate, headers, drain).</summary>
/// <param name="Case">Share of the case air's ppm.</param>
/// <param name="Base">Share of the base's ppm.</param>
/// <param name="LogVariance">Variance of what is shown, as a logarithm, from spot to spot.</param>
internal readonly record struct SpotView(double Case, double Base, double LogVariance)
{
    /// <summary>True when the spot shows the case air before the base.</summary>
    public bool IsCase => Case > 1.5 * Base;

    /// <summary>Share that an overhead spot shows of the case air's ppm when a source above the case made them; null for spots at the case,
    /// which show the case air as it is.</summary>
    public double? UnderLines { get; init; }

    /// <summary>Share that it shows of what a case spills into the aisle: that air lies low.</summary>
    public double Aisle => UnderLines is null ? 1 : 0.1;

    /// <summary>True for a tip at the case itself, not under the lines over it.</summary>
    public bool IsAtCase => UnderLines is null;

    /// <summary>What the spot shows of a source whose own space holds 1 ppm there.</summary>
    /// <param name="kind">Where the source is.</param>
    /// <param name="cross">Share of it in the other space.</param>
    public double Of(SourceKind kind, double cross) => kind switch
    {
        SourceKind.Base => Base + (Case * cross),
        SourceKind.Above when UnderLines is { } share => share,
        _ => Case + (Base * cross),
    };

    /// <summary>Metres off a front from which a place told by x and y, though it belongs to the front, may be that of the feet or of the aisle's air.</summary>
    private const double OffFrontMetres = 0.5;

    /// <summary>What a tip so far off shows: half of the case's air, more or less by a factor of 2.7 (judgement).</summary>
    private static readonly (double Share, double LogVariance) OffFront = (0.5, 1);

    /// <summary>The view from a place some metres off the front it belongs to.</summary>
    public SpotView From(double metres) => metres < OffFrontMetres || !IsAtCase ? this : this with
    {
        Case = Case * OffFront.Share, Base = Base * OffFront.Share, LogVariance = LogVariance + OffFront.LogVariance,
    };

    /// <summary>The view of a reading. Shares are stated assumptions (docs/zones.md), wide enough not to matter much.</summary>
    public static SpotView Of(Reading reading) => Of(reading.Spot, reading.Height == ProbeHeight.Low, reading.Place.OnBack);

    /// <summary>The view of a spot.</summary>
    public static SpotView Of(Spot? spot, bool low, bool onBack)
    {
        var back = onBack ? 0.15 : 0;
        return spot switch
        {
            Spot.Discharge => new(0.8, 0, 0.12 + back),
            Spot.KickPlate => new(0, 1, 0.05 + back),
            Spot.Perimeter => new(0.1, 0.9, 0.1 + back),
            Spot.Drain => new(0.6, 0.6, 0.2 + back),
            Spot.Ceiling => new(0.045, 0, 0.4) { UnderLines = 0.3 },
            Spot.LineDrop => new(0.5, 0.5, 0.3 + back),
            Spot.Deck or Spot.CoilEnd or Spot.ValveEnd or Spot.Joint => new(1, 0.2, 0.15 + back),
            Spot.Return => new(1, 0, 0.04 + back),
            _ => new(1, low ? 0.1 : 0, back),
        };
    }
}
