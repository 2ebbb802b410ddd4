using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Sorts a survey's net readings into blocks: per line-up, walk-in or open air of a room, and per air state.</summary>
internal static class BlockBuilder
{
    /// <summary>Deviations below this are not believed, ppm.</summary>
    private const double LeastDeviation = 0.3;

    /// <summary>Seconds since the fans stopped when nobody wrote them down.</summary>
    private const double UnsaidSeconds = 120;

    /// <summary>Variance of the level, as a logarithm, at which a monitor of hits (or one set to another gas) answers: a factor of 2.7.</summary>
    private const double HitLogVariance = 1;

    /// <summary>Seconds after which a monitor that was over range has cleared, in the mean: three changes of the air in a hose and cell of 50 to 100 mL
    /// at half a litre a minute.</summary>
    private const double ClearingSeconds = 30;

    /// <summary>Never surer than this that it has.</summary>
    private const double MostCleared = 0.8;

    /// <summary>Blocks of a line-up, fans on first.</summary>
    public static IReadOnlyList<ReadingBlock> Of(LineUpAxis axis, NetSurvey survey) => Split(axis.Fixtures[0].Id, axis, survey.Readings
        .Select(r => (Net: r, Fixture: axis.IndexOf(r.Reading.Place.Fixture)))
        .Where(p => p.Fixture >= 0)
        .Select(p => Block(p.Net, axis.ToAxis(p.Fixture, AlongOf(axis.Fixtures[p.Fixture], p.Net.Reading.Place)), axis.Fixtures[p.Fixture])));

    /// <summary>Blocks of a walk-in, fans on first.</summary>
    public static IReadOnlyList<ReadingBlock> Of(Fixture walkIn, NetSurvey survey) => Split(walkIn.Id, null, survey.Readings
        .Where(r => r.Reading.Place.Fixture == walkIn.Id || (r.Reading.Place.Fixture is null && r.Reading.Place.Room == walkIn.Id))
        .Select(r => Block(r, 0, null)));

    /// <summary>Open-air readings of each room that is not a walk-in, in the order first met.</summary>
    public static IReadOnlyList<ReadingBlock> OpenAir(Plan plan, NetSurvey survey) =>
        [.. survey.Readings
            .Where(r => r.Reading.Place.Fixture is null && plan.FindFixture(r.Reading.Place.Room)?.Kind != FixtureKind.WalkIn)
            .GroupBy(r => r.Reading.Place.Room ?? string.Empty)
            .Select(g => new ReadingBlock(g.Key, true, g.Select(r => Block(r, 0, null)), null))];

    private static List<ReadingBlock> Split(string key, LineUpAxis? axis, IEnumerable<BlockReading> readings)
    {
        var all = readings.ToList();
        var on = all.Where(r => AirRegime.IsFansOn(r.Source.Reading)).ToList();
        var still = all.Where(r => !AirRegime.IsFansOn(r.Source.Reading)).ToList();
        var blocks = new List<ReadingBlock>();
        if (on.Count > 0) blocks.Add(new ReadingBlock(key, true, on, axis));
        if (still.Count > 0) blocks.Add(new ReadingBlock(key, false, Timed(still), axis));
        return blocks;
    }

    // Seconds since the fans stopped: as noted, or counted from two minutes at the first reading after a pause of ten.
    private static IEnumerable<BlockReading> Timed(List<BlockReading> still)
    {
        DateTimeOffset? began = null;
        DateTimeOffset? last = null;
        foreach (var reading in still.OrderBy(r => r.Source.Reading.Time))
        {
            var time = reading.Source.Reading.Time;
            if (last is null || (time - last.Value).TotalMinutes > 10) began = time;
            last = time;
            var seconds = reading.Source.Reading.Detail?.SinceSeconds ?? UnsaidSeconds + (time - began!.Value).TotalSeconds;
            yield return reading with { StillSeconds = Math.Clamp(seconds, 15, 1800) };
        }
    }

    private static BlockReading Block(NetReading net, double s, Fixture? fixture)
    {
        var reading = new BlockReading
        {
            Source = net,
            S = s,
            Net = net.NetPpm,
            Deviation = Math.Max(net.DeviationPpm, LeastDeviation),
            Bound = net.Bound,
            View = SpotView.Of(net.Reading).From(OffFront(net.Reading.Place, fixture)),
            Cleared = net.SecondsSinceOverRange is { } since ? MostCleared * (1 - Math.Exp(-since / ClearingSeconds)) : 0,
        };
        return !net.HitOnly ? reading : reading with
        {
            HitOnly = true,
            Net = net.DetectionPpm,
            Bound = net.IsHit ? ReadingBound.AtLeast : ReadingBound.Below,
            View = reading.View with { LogVariance = reading.View.LogVariance + HitLogVariance },
        };
    }

    private static double OffFront(ReadingPlace place, Fixture? fixture)
    {
        var line = place.OnBack ? fixture?.Back : fixture?.Front;
        return line is null ? 0 : line.Project(place.At).Distance;
    }

    private static double AlongOf(Fixture fixture, ReadingPlace place)
    {
        if (place.Along is { } along)
        {
            // An island's far edge may have another length: the same share of it.
            return place.OnBack && fixture.Back is { Length: > 0 } back ? along * fixture.Front!.Length / back.Length : along;
        }

        return fixture.Front!.Project(place.At).Along;
    }
}
