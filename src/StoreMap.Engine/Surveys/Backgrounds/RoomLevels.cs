using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>The fitted backgrounds of a visit, one per channel, and the level of any reading's air.</summary>
internal sealed class RoomLevels
{
    // Widths of what is believed of a level beforehand. A monitor zeroed in clean air shows little; a room may be raised by its own sources.
    private static readonly (double Wide, double Tight, double HitScale) Halocarbon = (20, 1, 20);
    private static readonly (double Wide, double Tight, double HitScale) CarbonDioxide = (600, 200, 1000);
    private const double SecondsPerHour = 3600;

    private readonly Plan plan;
    private readonly Survey survey;
    private readonly SurveySettings settings;
    private readonly AirChannel[] channels;
    private readonly bool[] left;
    private readonly Dictionary<AirChannel, ChannelLevel?> fits = [];

    /// <summary>Prepares a visit.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="survey">Readings in time order.</param>
    /// <param name="settings">Settings.</param>
    /// <param name="channels">Channel of each reading.</param>
    /// <param name="left">True for readings that say nothing of a background (carry-over, hit-only).</param>
    public RoomLevels(Plan plan, Survey survey, SurveySettings settings, AirChannel[] channels, bool[] left)
    {
        (this.plan, this.survey, this.settings, this.channels, this.left) = (plan, survey, settings, channels, left);
    }

    /// <summary>The level that a reading's net value is taken from. A walk-in is judged against the room outside its door: its own air is
    /// mixed by its fans, so a leak inside raises every reading alike.</summary>
    public (double Ppm, double Deviation) At(int reading)
    {
        var channel = Reference(channels[reading]);
        return Fit(channel)?.At(Seconds(reading)) ?? Believed(channel);
    }

    /// <summary>Spread of the quiet readings of a reading's own air, ppm.</summary>
    public double Scatter(int reading) => Fit(Reference(channels[reading]))?.Fitted.Scatter ?? 0;

    /// <summary>The channel's own fit, or null when nothing was read in it.</summary>
    public ChannelLevel? Fit(AirChannel channel)
    {
        if (fits.TryGetValue(channel, out var known)) return known;
        var members = Enumerable.Range(0, channels.Length).Where(i => channels[i] == channel && !left[i]).ToArray();
        return fits[channel] = members.Length == 0 ? null : new ChannelLevel(members, FitMembers(channel, members)) { Times = [.. members.Select(Seconds)] };
    }

    /// <summary>The channel whose level is taken off: for a walk-in that of the space its door opens to.</summary>
    public AirChannel Reference(AirChannel channel)
    {
        if (plan.FindFixture(channel.Space) is not { Opening: { } opening } walkIn) return channel;
        var middle = new PlanPoint(walkIn.Outline.Average(p => p.X), walkIn.Outline.Average(p => p.Y));
        var step = opening.Middle - middle;
        var outside = opening.Middle + (step * (0.3 / Math.Max(0.3, Math.Sqrt(step.Dot(step)))));
        var space = PlanPlaces.RoomAt(plan, outside);
        return space == channel.Space ? channel with { Space = null } : Reference(channel with { Space = space });
    }

    private double Seconds(int reading) => (survey.Readings[reading].Time - survey.Start).TotalSeconds;

    private static (double Wide, double Tight, double HitScale) Widths(AirChannel channel) => channel.Co2 ? CarbonDioxide : Halocarbon;

    private static double Clean(AirChannel channel) => channel.Co2 ? SurveyDefaults.OutdoorCo2Ppm : 0;

    // Without a reading in its own air a space is believed to be like the sales floor, and that to be clean.
    private (double Ppm, double Deviation) Believed(AirChannel channel)
    {
        var floor = channel.Space is null ? null : Fit(channel with { Space = null });
        return (floor?.Median ?? Clean(channel), Widths(channel).Tight);
    }

    private FittedBackground FitMembers(AirChannel channel, int[] members)
    {
        var instrument = survey.Instruments.First(i => i.Id == channel.Instrument);
        var samples = new AirSample[members.Length];
        for (var k = 0; k < members.Length; k++)
        {
            var reading = survey.Readings[members[k]];
            samples[k] = new AirSample(Seconds(members[k]), reading.Ppm, reading.Bound, reading.Place.Fixture is null);
        }

        // Gas at a few points of one case is a leak there, not the level of the room: only readings in the room's air, or at several
        // fixtures apart, may lift the level far above what is believed.
        var widths = Widths(channel);
        var fixtures = members.Select(i => survey.Readings[i].Place.Fixture).Distinct().Count();
        var near = channel.Space is null ? Clean(channel) : Believed(channel).Ppm;
        var wide = fixtures >= 3 || Array.Exists(samples, s => s.RoomAir);
        var drift = channel.Co2 ? settings.DriftCo2PpmPerRootHour : settings.DriftPpmPerRootHour;
        var noise = new MonitorNoise(instrument.DetectionPpm, instrument.ResolutionPpm, settings.NoiseFraction);
        return new BackgroundFit(
            samples, noise, widths.HitScale, drift * drift / SecondsPerHour, new LevelPrior(near, wide ? widths.Wide : widths.Tight))
            .Fit(twoSidedScatter: Aerosol(channel.Space));
    }

    /// <summary>True for a room where sprays are used.</summary>
    public bool Aerosol(string? space) =>
        plan.Rooms.FirstOrDefault(r => r.Id == space) is { } room && (room.Aerosol || room.Kind == RoomKind.Bakery);

    /// <summary>One channel's fit.</summary>
    /// <param name="Members">Indices of its readings.</param>
    /// <param name="Fitted">The fit, one entry per member.</param>
    internal sealed record ChannelLevel(int[] Members, FittedBackground Fitted)
    {
        public double Median { get; } = MedianOf(Fitted.Level);

        public required double[] Times { get; init; }

        public (double Ppm, double Deviation) At(double seconds)
        {
            var at = Array.BinarySearch(Times, seconds);
            if (at >= 0) return (Fitted.Level[at], Fitted.Deviation[at]);
            var after = ~at;
            if (after == 0) return (Fitted.Level[0], Fitted.Deviation[0]);
            if (after == Times.Length) return (Fitted.Level[^1], Fitted.Deviation[^1]);
            var share = (seconds - Times[after - 1]) / (Times[after] - Times[after - 1]);
            return (
                Fitted.Level[after - 1] + (share * (Fitted.Level[after] - Fitted.Level[after - 1])),
                Math.Max(Fitted.Deviation[after - 1], Fitted.Deviation[after]));
        }

        private static double MedianOf(double[] values)
        {
            var sorted = values.Order().ToArray();
            var middle = sorted.Length / 2;
            return sorted.Length % 2 == 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
        }
    }
}
