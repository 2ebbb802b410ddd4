using StoreMap.Air;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>Chooses the readings that make the map and puts them on the grid.</summary>
internal static class FieldReadings
{
    /// <summary>Those of one air state that say how much: no joint sniffed from a finger's breadth, nothing held overhead, no bars or beeps.</summary>
    /// <param name="survey">The visit.</param>
    /// <param name="wanted">Wanted air state; where there is none, the one with most readings (the first of them in a tie).</param>
    public static IReadOnlyList<NetReading> Chosen(NetSurvey survey, AirState wanted)
    {
        var usable = survey.Readings.Where(r => !r.HitOnly && r.Reading.Spot is not (Spot.Joint or Spot.Ceiling) && double.IsFinite(r.NetPpm)).ToList();
        var states = usable.GroupBy(r => r.Reading.Air).OrderByDescending(g => g.Key == wanted).ThenByDescending(g => g.Count()).ThenBy(g => g.Key);
        return states.FirstOrDefault()?.ToList() ?? [];
    }

    /// <summary>The usual detection level, ppm: the scale of the log level. 1 without readings.</summary>
    public static double ScaleOf(IReadOnlyList<NetReading> readings)
    {
        var levels = readings.Select(r => r.DetectionPpm).Where(d => d > 0).Order().ToArray();
        return levels.Length == 0 ? 1 : levels[levels.Length / 2];
    }

    /// <summary>The cell whose air a reading tells of; -1 when it lies in none. What is held at a case's base is in the air before it.</summary>
    public static int CellOf(AirGrid grid, Reading reading)
    {
        var place = reading.Place;
        if (reading.Spot is not (Spot.KickPlate or Spot.Perimeter)) return grid.CellAt(place.At, place.Fixture, place.Room);
        var floor = grid.CellAt(place.At, null, place.Room);
        return floor >= 0 ? floor : grid.CellAt(place.At, place.Fixture, place.Room);
    }

    /// <summary>Puts a reading on the grid.</summary>
    public static FieldSite Site(NetReading reading, int cell, double scale)
    {
        // Noise can carry a clean reading below the room's level; the logarithm takes it down to half the scale.
        var net = Math.Max(reading.NetPpm, -0.5 * scale);
        var deviation = Math.Max(reading.DeviationPpm, 1e-3 * scale) / (scale + net);
        var share = Math.Max(net, 0) / (scale + Math.Max(net, 0));
        return new FieldSite(cell, LevelMoments.Level(net, scale), deviation, share, reading.Bound);
    }
}
