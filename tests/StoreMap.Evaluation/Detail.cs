using System.Globalization;
using System.Text;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>One row a store and stage, for a closer look.</summary>
internal static class Detail
{
    private const double Ft = LengthUnits.MetresPerFoot;

    public static string Csv(IEnumerable<Outcome> outcomes)
    {
        var text = new StringBuilder("store,rough,case,template,site,fixture,along,oz,ppm,stage,right,errorFeet,panels,habitFeet,probability,covered,width,rank,zones,likely,elsewhere,first,second,twiceStated,twiceReported,said\n");
        foreach (var o in outcomes)
        {
            var head = string.Create(CultureInfo.InvariantCulture, $"{o.Store.Number},{o.Store.Roughness},{o.Store.Case},{o.Store.Template},{string.Join('+', o.Store.Leaks.Select(l => l.Site))},{string.Join('+', o.Store.Leaks.Select(l => l.Fixture))},{string.Join('+', o.Store.Leaks.Select(l => Place(o.Store, l)))},{string.Join('+', o.Store.Leaks.Select(l => l.OuncesPerDay.ToString("0.0", CultureInfo.InvariantCulture)))},{string.Join('+', o.CoarsePpm.Select(p => p.ToString("0.0", CultureInfo.InvariantCulture)))}");
            foreach (var p in o.Places.Where(p => p.Method == Method.StoreMap))
            {
                var zone = o.Zones.FirstOrDefault(z => z.Stage == p.Stage);
                var habit = o.Places.First(h => h.Method == Method.Habit && h.Stage == p.Stage);
                text.Append(CultureInfo.InvariantCulture, $"{head},{p.Stage},{p.RightFixture},{p.ErrorFeet:0.00},{p.PanelsOpened},{habit.ErrorFeet:0.00},{zone?.Probability:0.000},{zone?.Covered},{zone?.WidthFeet:0.00},{zone?.Rank:0.000},,,,,,{o.Twice?.StatedPpm:0.0},{o.Twice?.Reported},{o.Said[p.Stage]}\n");
            }

            foreach (var a in o.Stores) text.Append(CultureInfo.InvariantCulture, $"{head},{a.Stage},,,,,,,,,{a.Zones},{a.LikelyCaseZones},{a.Elsewhere:0.000},{a.FirstFound},{a.SecondFound},,,{o.Said[a.Stage]}\n");
        }

        return text.ToString();
    }

    /// <summary>Zones, then sources elsewhere, with probabilities, on one line without commas; distances in feet along the front.</summary>
    public static string InShort(Plan plan, LocateResult result)
    {
        var zones = result.Zones.Select(z => string.Create(CultureInfo.InvariantCulture, $"{z.Fixture} {z.Probability:0.000} at {z.Center / Ft:0.0} [{z.From / Ft:0.0} {z.To / Ft:0.0}]"));
        var elsewhere = result.Elsewhere.Where(e => !e.Unexplained).Select(e => string.Create(CultureInfo.InvariantCulture, $"elsewhere near {e.Near} {e.Probability:0.000} {Point(plan, e.At)}"));
        return string.Join("; ", zones.Concat(elsewhere));
    }

    private static string Place(SimulatedStore store, StoreLeak leak) =>
        leak.Fixture is null ? Point(store.Plan, leak.At) : (leak.Along / Ft).ToString("0.0", CultureInfo.InvariantCulture);

    // The place and the front nearest to it.
    private static string Point(Plan plan, PlanPoint? at)
    {
        if (at is not { } place) return string.Empty;
        var (fixture, foot) = plan.Fixtures.Where(f => f.Front is not null).Select(f => (f.Id, Foot: f.Front!.Project(place))).MinBy(f => f.Foot.Distance);
        return string.Create(CultureInfo.InvariantCulture, $"({fixture} {foot.Along / Ft:0.0} off {foot.Distance / Ft:0.0})");
    }
}
