using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>What feeds a fixture, in words: circuits, shut-offs, and who shares them.</summary>
internal static class Supply
{
    /// <summary>All circuits of a fixture, that of a place first.</summary>
    public static IReadOnlyList<Circuit> Of(Plan plan, Fixture fixture, double along)
    {
        var here = fixture.Sections.LastOrDefault(s => s.From <= along) ?? fixture.Sections.FirstOrDefault();
        var ids = new[] { here?.Circuit ?? fixture.WalkInCircuit }.Concat(fixture.Sections.Select(s => s.Circuit)).Append(fixture.WalkInCircuit).OfType<string>().Distinct();
        return [.. ids.Select(id => plan.Circuits.FirstOrDefault(c => c.Id == id)).OfType<Circuit>()];
    }

    /// <summary>Other fixtures on any circuit of a fixture.</summary>
    public static IReadOnlyList<Fixture> SharedWith(Plan plan, Fixture? fixture)
    {
        if (fixture is null) return [];
        var ids = Of(plan, fixture, 0).Select(c => c.Id).ToList();
        return [.. plan.Fixtures.Where(f => f.Id != fixture.Id && Of(plan, f, 0).Any(c => ids.Contains(c.Id)))];
    }

    /// <summary>The lines of a detail or a repair card.</summary>
    public static IEnumerable<string> Lines(Plan plan, Fixture fixture, double along, Words words)
    {
        foreach (var (i, circuit) in Of(plan, fixture, along).Index())
        {
            var system = plan.Systems.FirstOrDefault(s => s.Id == circuit.System);
            var gas = fixture.Refrigerant ?? system?.Refrigerant ?? words["detail.unknown"];
            var shutoffs = circuit.Shutoffs.Select(s => s.Note).OfType<string>().ToList();
            yield return words.Say(
                i == 0 ? "detail.circuit" : "detail.circuit-too", circuit.Id, circuit.System ?? words["detail.unknown"], gas,
                shutoffs.Count > 0 ? string.Join(", ", shutoffs) : words["detail.not-on-plan"]);
        }

        var others = SharedWith(plan, fixture).Select(f => f.Tag).ToList();
        if (others.Count > 0) yield return words.Say("detail.shared", string.Join(", ", others));
    }
}
