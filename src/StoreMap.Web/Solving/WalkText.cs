using System.Globalization;
using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Web.Solving;

/// <summary>Turns a walk's length, minutes and clock into words for the desk.</summary>
internal static class WalkText
{
    public static string Takes(Route route, LengthUnit units)
    {
        var m = route.Minutes;
        var length = units.IsCustomary() ? FormattableString.Invariant($"{route.Length / LengthUnits.MetresPerFoot:0} ft") : FormattableString.Invariant($"{route.Length:0} m");
        return FormattableString.Invariant($"{route.Order.Count} points, {length} on foot, about {m.Total:0} min: {m.Walking:0} walking, {m.Probing:0} probing, {m.Handling:0} doors and covers, {m.Fixed:0} sign-in to write-up.");
    }

    /// <summary>Points that can't be reached, by place.</summary>
    /// <param name="points">In the draft's order.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="units">The unit in which lengths are shown.</param>
    public static IReadOnlyList<LeftOutPlace> LeftOut(IReadOnlyList<ProbePoint> points, Plan plan, LengthUnit units) =>
        [.. points.GroupBy(p => Say.Title(plan, p)).Select(g => new LeftOutPlace(g.Key, $"{g.Count()} {(g.Count() == 1 ? "point" : "points")}{Stretch([.. g], plan, units)}"))];

    private static string Stretch(IReadOnlyList<ProbePoint> points, Plan plan, LengthUnit units)
    {
        if (plan.FindFixture(points[0].Fixture) is not { } fixture || points.Any(p => p.Along is null)) return "";
        var from = points.Select(p => fixture.FromLeft(p.Along!.Value)).ToList();
        string least = Say.Length(units, from.Min()), most = Say.Length(units, from.Max());
        return least == most ? $", {least} from the left" : $", {least} to {most} from the left";
    }

    /// <summary>When all is done, and where the walk waits or falls out of hours; empty without a time to begin.</summary>
    /// <param name="route">The walk.</param>
    /// <param name="title">What a point's place is called.</param>
    public static IReadOnlyList<string> Clock(Route route, Func<string, string> title) => route.Clock is not { } clock ? [] :
    [
        $"Begun at {Time(clock.Begin)}, all is written up about {Time(clock.End)}.",
        .. clock.Visits.Where(v => v.Kind != TimedVisitKind.Met).Select(v => v.Kind == TimedVisitKind.Wait
            ? FormattableString.Invariant($"{v.Place.Name}: a wait of {v.WaitMinutes:0} min before {title(v.Before)}, until its hours begin.")
            : $"{v.Place.Name}: {title(v.Before)} comes at {Time(v.At)}, outside its hours ({Hours(v.Place)}). Agree that with the store, or begin at another time."),
        .. clock.Checks.Where(c => c.Kind != TimedCheckKind.Missed).Select(c =>
            $"Circuit {c.Circuit} defrosts {Time(c.From)} to {Time(c.To)} with its fans off: {(c.Kind == TimedCheckKind.OnTheWay ? "the walk is there then" : $"leave the walk for it after {title(c.After!)}")}."),
    ];

    /// <summary>A store time, such as <c>06:00</c>.</summary>
    public static string Time(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    private static string Hours(TimedPlace place) => string.Join(", ", place.Hours.Select(h => $"{Time(h.From)} to {Time(h.To)}"));
}
