using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.App.Documents;

/// <summary>A route in plain words for the terminal.</summary>
internal static class RouteWords
{
    public static IEnumerable<string> Of(Plan plan, Route route)
    {
        string Feet(double metres) => FormattableString.Invariant($"{plan.Units.FromMetres(metres):0} {plan.Units.Symbol()}");
        var m = route.Minutes;
        yield return FormattableString.Invariant(
            $"{route.Order.Count} points, {Feet(route.Length)} on foot (no {(route.BoundKeepsGroups ? "walk that keeps line-ups whole" : "order")} can be under {Feet(route.LowerBound)}), about {m.Total:0} minutes{(route.MinutesLowerBound is { } least ? FormattableString.Invariant($" (none can take under {least:0})") : "")}: {m.Fixed:0} fixed, {m.Probing:0} probing, {m.Walking:0} walking, {m.Handling:0} for doors, ladders and walk-ins.");
        if (route.Weighed is { Metres: > 0 } weighed)
            yield return $"The order of line-ups and rooms is {Best(weighed)}, changes of gas and aisles walked again counted in.";
        if (route.FirstGas is { } first) yield return $"The monitor is set to {first} at the start.";
        if (route.GasChanges.Count > 0)
            yield return FormattableString.Invariant($"The monitor is set to another gas and zeroed {Times(route.GasChanges.Count)} on the way: {string.Join(", ", route.GasChanges.Select(c => $"{c.Gas} before {c.Before}"))}.");
        if (route.Risk is { } risk)
        {
            yield return FormattableString.Invariant(
                $"Likeliest places first: a leak is met after {risk.ExpectedMinutes:0.0} minutes on average, {risk.UsualExpectedMinutes - risk.ExpectedMinutes:0.0} sooner than on the usual walk, for {Feet(route.Length - risk.UsualLength)} more on foot ({100 * ((route.Length / risk.UsualLength) - 1):0.0} %) and {m.Total - risk.UsualMinutes:0.0} minutes more in all.");
            foreach (var place in risk.Likeliest)
                yield return FormattableString.Invariant($"  {plan.FindFixture(place.Element)?.Tag ?? place.Element}: {100 * place.Share:0.#} % of the leaks to be expected{(place.Reason is null ? "" : $" ({place.Reason})")}");
        }

        if (route.Forecast is { } forecast)
            yield return FormattableString.Invariant($"Likely {forecast.Likely:0} minutes with the hits to be expected ({forecast.ExpectedHits:0.0} at {forecast.MinutesPerHit:0} minutes each{(forecast.Pace == 1 ? "" : FormattableString.Invariant($", earlier visits took {forecast.Pace:0.00} times as long as planned"))}); one night in twenty over {forecast.BadNight:0}.");
        if (route.Clock is { } clock)
        {
            yield return FormattableString.Invariant($"From {clock.Begin:HH:mm} to {clock.End:HH:mm}.");
            foreach (var check in clock.Checks) yield return Defrost(check);
            foreach (var visit in clock.Visits.GroupBy(v => v.Place.Id).SelectMany(g => g.All(v => v.Kind == TimedVisitKind.Met) ? g.Take(1) : g.Where(v => v.Kind != TimedVisitKind.Met)))
                yield return Hours(visit);
            if (clock.Change is { } change)
                yield return FormattableString.Invariant($"The order was changed for this: {Feet(Math.Abs(change.Metres))} {(change.Metres < 0 ? "less" : "more")} on foot, done {Math.Abs(change.MinutesSaved):0} minutes {(change.MinutesSaved < 0 ? "later" : "sooner")}{(change.OutsideBefore > 0 ? $"; the usual order falls outside hours {Times(change.OutsideBefore)}" : "")}.");
        }

        if (route.Kept is { } kept)
        {
            var saving = kept.SavingMinutes == 0 ? "Nothing would be saved by a new order" : FormattableString.Invariant($"A new order saves {kept.SavingMinutes:0.0} minutes");
            yield return FormattableString.Invariant($"{saving}{(kept.IsKept ? $"; the earlier order is kept (a change must save over {100 * kept.LeastSaving:0.#} %)." : $", over {100 * kept.LeastSaving:0.#} %; it is taken.")}");
        }

        if (route.Replanned is not { } replanned) yield break;
        yield return $"Replanned from where you stand: {replanned.Done} points done{(replanned.Added.Count > 0 ? $", {replanned.Added.Count} added" : "")}{(replanned.Reordered ? ", the rest partly in a new order." : ", the rest in its order.")}";
        if (replanned.Unreachable.Count > 0) yield return $"Not reached today, to be reported as not checked: {string.Join(", ", replanned.Unreachable)}.";
        yield return $"Next: {string.Join(", ", route.Order.Take(8))}.";
    }

    private static string Hours(TimedVisit v)
    {
        var place = FormattableString.Invariant($"{v.Place.Name} may be entered {string.Join(" and ", v.Place.Hours.Select(h => FormattableString.Invariant($"{h.From:HH:mm} to {h.To:HH:mm}")))}: ");
        return place + v.Kind switch
        {
            TimedVisitKind.Wait => FormattableString.Invariant($"the walk is there at {v.At:HH:mm} and waits {v.WaitMinutes:0.0} minutes before {v.Before}."),
            TimedVisitKind.Outside => FormattableString.Invariant($"the walk is there at {v.At:HH:mm}, before {v.Before}, and not done within them. Agree it with the store, or begin at another time."),
            _ => FormattableString.Invariant($"the walk keeps to it, first there at {v.At:HH:mm}, before {v.Before}."),
        };
    }

    private static string Defrost(TimedCheck c)
    {
        var window = FormattableString.Invariant($"Circuit {c.Circuit}, {c.Cooling} defrost {c.From:HH:mm} to {c.To:HH:mm}, fans stopped: ");
        return window + c.Kind switch
        {
            TimedCheckKind.OnTheWay => FormattableString.Invariant($"the walk reads {c.Points.Count} points in it, from {c.At:HH:mm}."),
            TimedCheckKind.Detour => FormattableString.Invariant($"after {c.After} probe {c.Points.Count} points, from {c.At:HH:mm}, {c.Minutes:0} minutes more."),
            _ => "no time for it on this walk.",
        };
    }

    private static string Best(RouteWeighed w) => w.LowerBound >= w.Metres * (1 - 1e-6) ? "proved to be the best there is"
        : w.LowerBound > 0 ? FormattableString.Invariant($"at most {100 * ((w.Metres / w.LowerBound) - 1):0.0} % over the best there can be") : "the best found";

    private static string Times(int count) => count switch { 1 => "once", 2 => "twice", _ => $"{count} times" };
}
