namespace StoreMap.Plans;

/// <summary>A system named or implied by a case list.</summary>
internal sealed record ListedSystem(string Name, string? Refrigerant);

/// <summary>A circuit named or implied by a case list.</summary>
internal sealed record ListedCircuit(string Name, string? System);

/// <summary>The circuits and systems of a case list, in the order of their first row, and which circuits feed each row.</summary>
internal sealed class CaseListPlant
{
    private readonly Dictionary<string, (string? System, CaseRow First)> circuits = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (string? Refrigerant, CaseRow First)> systems = new(StringComparer.Ordinal);
    private readonly List<string> circuitOrder = [];
    private readonly List<string> systemOrder = [];
    private readonly Dictionary<CaseRow, IReadOnlyList<string>> feeds = [];

    /// <summary>Systems in order.</summary>
    public IReadOnlyList<ListedSystem> Systems => [.. systemOrder.Select(s => new ListedSystem(s, systems[s].Refrigerant))];

    /// <summary>Circuits in order.</summary>
    public IReadOnlyList<ListedCircuit> Circuits => [.. circuitOrder.Select(c => new ListedCircuit(c, circuits[c].System))];

    /// <summary>Circuits that feed a row: none, one, or one per section.</summary>
    public IReadOnlyList<string> Feeding(CaseRow row) => feeds[row];

    /// <summary>Gathers circuits and systems; a circuit on two systems or a system with two refrigerants is an error.</summary>
    public static CaseListPlant Of(IReadOnlyList<CaseRow> rows, ProblemList problems)
    {
        var plant = new CaseListPlant();
        foreach (var row in rows) plant.feeds[row] = row.Kind == FixtureKind.SelfContained ? [] : plant.Feed(row, problems);
        return plant;
    }

    private IReadOnlyList<string> Feed(CaseRow row, ProblemList problems)
    {
        // A refrigerant without a system still says what to set the monitor to: such rows share a system named after it.
        var known = row.Circuits.Select(c => circuits.GetValueOrDefault(c).System).FirstOrDefault(s => s is not null);
        var system = row.System ?? known ?? row.Refrigerant;
        if (system is not null) AddSystem(system, row, problems);
        var names = row.Circuits;
        if (names.Count == 0 && system is not null)
        {
            names = [$"{system}-unnamed"];
            problems.Warn(row.Element, "circuit", null, "no-circuit", $"The fixture names no circuit; it is put on {names[0]} of system {system}.");
        }

        foreach (var circuit in names) AddCircuit(circuit, system, row, problems);
        return names;
    }

    private void AddSystem(string system, CaseRow row, ProblemList problems)
    {
        if (!systems.TryGetValue(system, out var seen))
        {
            systems[system] = (row.Refrigerant, row);
            systemOrder.Add(system);
        }
        else if (seen.Refrigerant is null)
        {
            systems[system] = (row.Refrigerant, row);
        }
        else if (row.Refrigerant is not null && row.Refrigerant != seen.Refrigerant)
        {
            problems.Error(row.Element, "refrigerant", row.Refrigerant, "system-refrigerant",
                $"System {system} has {seen.Refrigerant} in {seen.First.Element}; a system has one refrigerant. Correct one of them.");
        }
    }

    private void AddCircuit(string circuit, string? system, CaseRow row, ProblemList problems)
    {
        if (!circuits.TryGetValue(circuit, out var seen))
        {
            circuits[circuit] = (system, row);
            circuitOrder.Add(circuit);
        }
        else if (seen.System is null)
        {
            circuits[circuit] = (system, row);
        }
        else if (system is not null && system != seen.System)
        {
            problems.Error(row.Element, "system", system, "circuit-system",
                $"Circuit {circuit} hangs on system {seen.System} in {seen.First.Element}; a circuit has one system. Correct one of them.");
        }
    }
}
