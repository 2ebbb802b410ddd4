namespace StoreMap.History;

/// <summary>What became of a finding.</summary>
public enum FindingStatus
{
    /// <summary>Found, not yet dealt with.</summary>
    Open,

    /// <summary>Valved off.</summary>
    Isolated,

    /// <summary>Repaired, not yet verified.</summary>
    Repaired,

    /// <summary>Passed its initial verification test.</summary>
    Verified,

    /// <summary>Passed its follow-up verification test.</summary>
    FollowedUp,

    /// <summary>Leaked again.</summary>
    Reopened,
}

/// <summary>A test after a repair.</summary>
/// <param name="Date">Day of the test.</param>
/// <param name="Kind"><c>initial</c> or <c>follow-up</c>.</param>
/// <param name="Method">Such as <c>bubble</c>, <c>electronic</c>, <c>pressure</c>.</param>
/// <param name="Passed">The result.</param>
public sealed record VerificationTest(DateOnly Date, string Kind, string Method, bool Passed);

/// <summary>One entry of the append-only record: a finding as it stands from a day on. A later entry of the same finding stands in its
/// place; what it leaves out stays as it was. Earlier entries are never changed.</summary>
public sealed record ServiceEntry
{
    /// <summary>Finding id, unique in the store.</summary>
    public required string Finding { get; init; }

    /// <summary>Day of the entry.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>Fixture id; null for equipment.</summary>
    public string? Fixture { get; init; }

    /// <summary>Equipment id; null for a fixture.</summary>
    public string? Equipment { get; init; }

    /// <summary>Number of the section; null when not said.</summary>
    public int? Section { get; init; }

    /// <summary>Metres along the fixture's front; null when not said.</summary>
    public double? Along { get; init; }

    /// <summary>Spot in words.</summary>
    public string? Spot { get; init; }

    /// <summary>Component, such as <c>expansion valve flare</c>.</summary>
    public string? Component { get; init; }

    /// <summary>Fault, such as <c>loose</c>, <c>rubbed through</c>.</summary>
    public string? Fault { get; init; }

    /// <summary>How it was pinpointed.</summary>
    public string? Pinpointed { get; init; }

    /// <summary>Repair in words.</summary>
    public string? Repair { get; init; }

    /// <summary>Tests so far.</summary>
    public IReadOnlyList<VerificationTest> Tests { get; init; } = [];

    /// <summary>Status from this day on.</summary>
    public required FindingStatus Status { get; init; }

    /// <summary>Work-order number.</summary>
    public string? WorkOrder { get; init; }

    /// <summary>Technician.</summary>
    public string? Technician { get; init; }

    /// <summary>Technician's certificate.</summary>
    public string? Certificate { get; init; }

    /// <summary>Anything else, in words.</summary>
    public string? Note { get; init; }
}

/// <summary>Refrigerant put into or taken out of a system.</summary>
/// <param name="Date">Day.</param>
/// <param name="System">System id.</param>
/// <param name="Refrigerant">Type, such as <c>R-448A</c>.</param>
/// <param name="AddedKilograms">Kilograms added, at least 0.</param>
/// <param name="RecoveredKilograms">Kilograms recovered, at least 0.</param>
/// <param name="Finding">The finding it was done for; null when not said.</param>
public sealed record RefrigerantMovement(
    DateOnly Date, string System, string Refrigerant, double AddedKilograms, double RecoveredKilograms, string? Finding = null);

/// <summary>A store's service record.</summary>
/// <param name="Store">Layout id.</param>
/// <param name="Entries">Entries in file order.</param>
/// <param name="Movements">Refrigerant added and recovered.</param>
public sealed record ServiceRecord(
    string Store, IReadOnlyList<ServiceEntry> Entries, IReadOnlyList<RefrigerantMovement> Movements);
