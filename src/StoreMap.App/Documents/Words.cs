using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.App.Documents;

/// <summary>Answers in plain words for the terminal; the sheets say more.</summary>
internal static class Words
{
    public static string Hits(Plan plan, NetSurvey visit)
    {
        var hits = visit.Readings.Where(r => r.IsHit).ToList();
        var where = hits.Select(h => plan.FindFixture(h.Reading.Place.Fixture)?.Tag ?? PlanPlaces.RoomName(plan, h.Reading.Place.Room)).Distinct().ToList();
        return hits.Count == 0
            ? FormattableString.Invariant($"{visit.Readings.Count} readings, nothing at or above the action level.")
            : FormattableString.Invariant($"{visit.Readings.Count} readings, {hits.Count} at or above the action level: {string.Join(", ", where)}.");
    }

    public static string GoBack(Plan plan, GoBackHit hit)
    {
        var place = hit.Place.Place;
        var unit = plan.Units;
        var where = plan.FindFixture(place.Fixture) is { } fixture
            ? $"case {fixture.Tag}" + (place.Along is { } along ? FormattableString.Invariant($" at {unit.FromMetres(along):0.#} {unit.Symbol()} from its front's first point") : "")
            : FormattableString.Invariant($"{PlanPlaces.RoomName(plan, place.Room)} at {unit.FromMetres(place.At.X):0.#}, {unit.FromMetres(place.At.Y):0.#}");
        var back = hit.Place.WalkedMetres > 0 ? FormattableString.Invariant($", {unit.FromMetres(hit.Place.WalkedMetres):0.#} {unit.Symbol()} back") : "";
        var near = hit.Place.Nearest.Count > 0 ? $"; nearest probe points {string.Join(", ", hit.Place.Nearest.Select(p => p.Id))}" : "";
        return FormattableString.Invariant($"{hit.Hit.NetPpm:0.#} ppm above room, shown at {hit.Hit.Reading.Time:HH:mm:ss}: go back to {where}{back}{near}.");
    }

    /// <summary>A panel by its case's tag, as people call it.</summary>
    private static string Panel(Plan plan, string id)
    {
        var slash = id.LastIndexOf('/');
        return $"{plan.FindFixture(id[..slash])?.Tag ?? id[..slash]} panel {id[(slash + 1)..]}";
    }

    public static IEnumerable<string> Located(Plan plan, LocateResult result)
    {
        foreach (var zone in result.Zones)
        {
            var tag = plan.FindFixture(zone.Fixture)?.Tag ?? zone.Fixture;
            yield return FormattableString.Invariant($"Case {tag}: {(result.IsFurther(zone) ? "a further leak" : "a leak")} in about {OutOfTen(zone.Probability)} of 10. {Sentence(zone.Reason)}");
        }

        foreach (var e in result.Elsewhere)
        {
            var tag = plan.FindFixture(e.Near)?.Tag ?? e.Near;
            yield return e.Unexplained ? $"At {tag} gas is here: {e.Look}." : e.Probability >= 0.5
                ? $"At {tag} gas is here, its source is probably not in this case: look at {e.Look}."
                : FormattableString.Invariant($"At {tag} the source is outside the case in about {OutOfTen(e.Probability)} of 10: {e.Look}.");
        }

        if (result.Open.Count > 0) yield return $"Open in this order: {string.Join(", ", result.Open.Take(8).Select(id => Panel(plan, id)))}. Lock out and tag out before reaching in.";
        if (result.Zones.Count == 0 && result.Elsewhere.Count == 0) yield return "No leak seen.";
        yield return FormattableString.Invariant($"No leak seen at {result.NoLeakSeen.Count} other fixtures; --json says how small a leak would have shown at each.");
        if (result.NotProbed.Count > 0) yield return $"Not probed: {string.Join(", ", result.NotProbed)}.";
        if (result.Next is { } next) yield return $"Go here next: {next.Why}.";
    }

    public static IEnumerable<string> Comparison(Plan plan, Comparison comparison)
    {
        foreach (var zone in comparison.Zones)
        {
            yield return $"Case {plan.FindFixture(zone.Fixture)?.Tag ?? zone.Fixture}: {Change(zone.Change)}. {Sentence(zone.Note)}{(zone.Service is null ? "" : " " + Sentence(zone.Service))}";
        }

        foreach (var source in comparison.Sources)
        {
            yield return $"Gas near {plan.FindFixture(source.Near)?.Tag ?? source.Near}, source not placed in a case: {Change(source.Change)}. {source.Note} Look: {source.Look}.";
        }

        foreach (var b in comparison.Balances)
        {
            yield return FormattableString.Invariant($"System {b.System}: {UnitsOut.Pounds(b.AddedKilograms):0} lb added in {b.Days} days; the leaks found explain {UnitsOut.Pounds(b.ExplainedLowKilograms):0} to {UnitsOut.Pounds(b.ExplainedHighKilograms):0} lb.")
                + (b.AddsUp ? "" : b.SourcesNear.Count == 0 ? " The main leak has probably not been found."
                    : $" The source near {string.Join(", ", b.SourcesNear.Select(id => plan.FindFixture(id)?.Tag ?? id))}, outside the cases, may be what is missing.");
        }
    }

    private static string Change(ZoneChange change) => change switch
    {
        ZoneChange.New => "new",
        ZoneChange.Recurring => "recurring",
        ZoneChange.NoLongerSeen => "no longer seen",
        _ => "not comparable",
    };

    private static int OutOfTen(double probability) => (int)Math.Clamp(Math.Round(probability * 10), 1, 10);

    private static string Sentence(string words) => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..].TrimEnd('.') + ".";
}
