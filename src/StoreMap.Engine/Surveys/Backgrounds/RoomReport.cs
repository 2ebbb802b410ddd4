using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Says of each room what its air showed, and whether it is raised everywhere alike.</summary>
internal sealed class RoomReport(Plan plan, Survey survey, RoomLevels levels, AirChannel[] channels, IReadOnlyList<NetReading> nets)
{
    // The same everywhere: the quiet readings lie this close together, as a fraction of the level, or within twice the noise.
    private const double EvenFraction = 0.35;

    /// <summary>One entry per space with readings: the sales floor, then rooms, then walk-ins, in the plan's order.</summary>
    public List<RoomBackground> Rooms(List<Problem> warnings)
    {
        var spaces = new List<(string? Id, string Name)> { (null, "Sales floor") };
        spaces.AddRange(plan.Rooms.Select(r => ((string?)r.Id, r.Name)));
        spaces.AddRange(plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).Select(f => ((string?)f.Id, f.Name ?? f.Tag)));
        var rooms = new List<RoomBackground>();
        foreach (var (id, name) in spaces)
        {
            var main = channels.Where(c => c.Space == id).GroupBy(c => c).OrderByDescending(g => g.Count()).FirstOrDefault();
            if (main is not null) rooms.Add(Room(main.Key, name, warnings));
        }

        return rooms;
    }

    private RoomBackground Room(AirChannel channel, string name, List<Problem> warnings)
    {
        var mine = Enumerable.Range(0, channels.Length).Where(i => channels[i] == channel).ToArray();
        var reference = levels.Reference(channel);
        var fit = levels.Fit(reference);
        if (reference != channel) return WalkIn(channel, name, fit, mine, warnings);
        if (fit is null) return new RoomBackground(channel.Space, name, 0, 0, 0, false, null);
        var reason = Even(channel, mine, fit.Median) ? RaisedReason(channel.Space, name, fit.Median) : null;
        if (reason is not null) Warn(channel, fit.Median, "room-raised", reason, warnings);
        return new RoomBackground(
            channel.Space, name, fit.Median, Spread(fit), fit.Fitted.Quiet.Count(q => q > 0.5), reason is not null, reason);
    }

    // A walk-in's readings are judged against the room outside. At that room's own raised level it is raised with it; evenly above
    // it, the gas is its own and mixed.
    private RoomBackground WalkIn(
        AirChannel channel, string name, RoomLevels.ChannelLevel? outside, int[] mine, List<Problem> warnings)
    {
        var numbers = mine.Select(i => survey.Readings[i].Ppm).Order().ToArray();
        var level = numbers[numbers.Length / 2];
        var even = Even(channel, mine, level);
        var hits = Array.Exists(mine, i => nets[i].IsHit);
        string? reason = null;
        if (even && !hits && outside is not null)
        {
            reason = $"{name} reads {Text(level)} ppm everywhere, like the room outside its door: background or interference, not a leak in it.";
            Warn(channel, level, "room-raised", reason, warnings);
        }
        else if (even && hits)
        {
            Warn(channel, level, "walk-in-mixed",
                $"{name} reads {Text(level)} ppm at every height, above the room outside its door: the fans mix the air. "
                + "Stop the fans or use a defrost, let the air settle, and probe low again to find the place.", warnings);
        }

        return new RoomBackground(
            channel.Space, name, outside?.Median ?? 0, outside is null ? 0 : Spread(outside), mine.Length, reason is not null, reason);
    }

    private static void Warn(AirChannel channel, double ppm, string rule, string message, List<Problem> warnings) =>
        warnings.Add(new Problem(Severity.Warning, null, channel.Space, null, Text(ppm), rule, message));

    /// <summary>True when a space shows one raised level in all its readings.</summary>
    private bool Even(AirChannel channel, int[] mine, double level)
    {
        if (mine.Length < 2 || channel is { Space: null, Co2: true }) return false;
        var instrument = survey.Instruments.First(i => i.Id == channel.Instrument);
        var clean = channel.Co2 ? levels.Fit(channel with { Space = null })?.Median ?? SurveyDefaults.OutdoorCo2Ppm : 0;
        var least = channel.Co2 ? SurveyDefaults.ActionCo2Ppm : MonitorNoise.DetectionLevel(
            new MonitorNoise(instrument.DetectionPpm, instrument.ResolutionPpm, 0).Variance(0), 0);
        if (level - clean < least) return false;
        var even = Math.Max(EvenFraction * (level - clean), 2 * instrument.ResolutionPpm);
        return Array.TrueForAll(mine, i =>
            survey.Readings[i].Bound == ReadingBound.Exact && Math.Abs(survey.Readings[i].Ppm - level) <= even);
    }

    private string RaisedReason(string? space, string name, double ppm) => levels.Aerosol(space)
        ? $"{name} reads {Text(ppm)} ppm at every point: the propellant of sprays used there, which the monitor takes for refrigerant, "
          + "and not a leak. Check this room once a year when nothing has been sprayed and the air is clean."
        : $"{name} reads {Text(ppm)} ppm at every point, near the fixtures and away from them: background or interference, not a leak "
          + "at one of them. Zero the monitor in outdoor air and probe again after 30 to 60 minutes: sprays and cleaners fade, a leak does not.";

    private static double Spread(RoomLevels.ChannelLevel level)
    {
        var deviation = level.Fitted.Deviation.Order().ElementAt(level.Fitted.Deviation.Length / 2);
        return Math.Sqrt((level.Fitted.Scatter * level.Fitted.Scatter) + (deviation * deviation));
    }

    private static string Text(double ppm) => Math.Round(ppm, 1).ToString(CultureInfo.InvariantCulture);
}
