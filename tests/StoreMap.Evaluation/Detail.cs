using System.Globalization;
using System.Text;

namespace StoreMap.Evaluation;

/// <summary>One row a store and stage, for a closer look.</summary>
internal static class Detail
{
    public static string Csv(IEnumerable<Outcome> outcomes)
    {
        var text = new StringBuilder("store,rough,case,template,site,fixture,oz,ppm,stage,right,errorFeet,panels,habitFeet,probability,covered,width,rank,zones,likely,elsewhere,first,second,twiceStated,twiceReported\n");
        foreach (var o in outcomes)
        {
            var head = string.Create(CultureInfo.InvariantCulture, $"{o.Store.Number},{o.Store.Roughness},{o.Store.Case},{o.Store.Template},{string.Join('+', o.Store.Leaks.Select(l => l.Site))},{string.Join('+', o.Store.Leaks.Select(l => l.Fixture))},{string.Join('+', o.Store.Leaks.Select(l => l.OuncesPerDay.ToString("0.0", CultureInfo.InvariantCulture)))},{string.Join('+', o.CoarsePpm.Select(p => p.ToString("0.0", CultureInfo.InvariantCulture)))}");
            foreach (var p in o.Places.Where(p => p.Method == Method.StoreMap))
            {
                var zone = o.Zones.FirstOrDefault(z => z.Stage == p.Stage);
                var habit = o.Places.First(h => h.Method == Method.Habit && h.Stage == p.Stage);
                text.Append(CultureInfo.InvariantCulture, $"{head},{p.Stage},{p.RightFixture},{p.ErrorFeet:0.00},{p.PanelsOpened},{habit.ErrorFeet:0.00},{zone?.Probability:0.000},{zone?.Covered},{zone?.WidthFeet:0.00},{zone?.Rank:0.000},,,,,,{o.Twice?.StatedPpm:0.0},{o.Twice?.Reported}\n");
            }

            foreach (var a in o.Stores) text.Append(CultureInfo.InvariantCulture, $"{head},{a.Stage},,,,,,,,,{a.Zones},{a.LikelyCaseZones},{a.Elsewhere:0.000},{a.FirstFound},{a.SecondFound},,\n");
        }

        return text.ToString();
    }
}
