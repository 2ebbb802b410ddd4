using System.Globalization;
using System.Text;
using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>Writes a visit as a technician would hand it in: readings noted by hand, or the monitor's log with marks.</summary>
public static class DemoFiles
{
    /// <summary>One row a stop: the number shown when the dwell ends.</summary>
    public static string Readings(DemoVisits.Visit visit, double[] shown)
    {
        var text = new StringBuilder("time,ppm,point,fixture,at,height,spot,air\n");
        foreach (var stop in visit.Scenario.Stops)
        {
            var end = stop.ArriveSeconds + stop.DwellSeconds;
            text.Append(Time(visit, end)).Append(',').Append(visit.Scenario.Monitor.Display(shown[(int)end])).Append(',').Append(Place(stop)).Append('\n');
        }

        return text.ToString();
    }

    /// <summary>The monitor's log, one row every two seconds.</summary>
    public static string Log(DemoVisits.Visit visit, double[] shown)
    {
        var text = new StringBuilder("time,ppm\n");
        for (var t = 0; t < shown.Length; t += 2) text.Append(Time(visit, t)).Append(',').Append(visit.Scenario.Monitor.Display(shown[t])).Append('\n');
        return text.ToString();
    }

    /// <summary>The marks that go with the log: when the tip came to each place.</summary>
    public static string Marks(DemoVisits.Visit visit)
    {
        var text = new StringBuilder("time,point,fixture,at,height,spot,air\n");
        foreach (var stop in visit.Scenario.Stops) text.Append(Time(visit, stop.ArriveSeconds)).Append(',').Append(Place(stop)).Append('\n');
        return text.ToString();
    }

    private static string Place(Stop stop)
    {
        var p = stop.Point;
        var own = p.Pass == ProbePass.CloseIn;
        var at = own ? FormattableString.Invariant($"{p.Along / LengthUnits.MetresPerFoot:0.##}") : "";
        return string.Join(',', own ? "" : p.Id, own ? p.Fixture : "", at, own ? p.Height.Kebab() : "", own ? p.Spot.Kebab() : "", stop.Air.Kebab());
    }

    private static string Time(DemoVisits.Visit visit, double seconds) =>
        visit.Start.AddSeconds(Math.Floor(seconds)).ToString("yyyy-MM-dd'T'HH:mm:ssK", CultureInfo.InvariantCulture);
}
