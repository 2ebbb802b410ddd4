using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>When a group is walked.</summary>
public enum GroupTurn
{
    /// <summary>Where the technician stands when a walk is replanned.</summary>
    Here,

    /// <summary>Before all others: warm-up and zero.</summary>
    First,

    /// <summary>Right after the zero: rooms with sprays, before their work starts.</summary>
    Early,

    /// <summary>Whenever the tour comes by.</summary>
    Any,

    /// <summary>After all others: rooms where sprays are in use.</summary>
    Last,

    /// <summary>Where a replanned walk ends.</summary>
    Home,
}

/// <summary>Probe points walked through in one go: a line-up's points in sequence, an island's round, a walk-in entered once. A tour
/// never tears a group; it chooses only the order of groups and from which end each is entered.</summary>
public sealed record ProbeGroup
{
    /// <summary>Readable id, unique among the groups of a draft: a line-up's or fixture's id with the pass.</summary>
    public required string Id { get; init; }

    /// <summary>Ids of its points in walking order; at least one, each in exactly one group.</summary>
    public required IReadOnlyList<string> Points { get; init; }

    /// <summary>True when it may as well be walked from the last point to the first.</summary>
    public bool Reversible { get; init; } = true;

    /// <summary>When it is walked.</summary>
    public GroupTurn Turn { get; init; } = GroupTurn.Any;

    /// <summary>Ids of the fixtures it serves, in walking order; empty for rooms and equipment.</summary>
    public IReadOnlyList<string> Fixtures { get; init; } = [];

    /// <summary>The room it lies in; null on the sales floor.</summary>
    public string? Room { get; init; }

    /// <summary>The refrigerant to set the monitor to, that of its first point; null when unknown or of no matter.</summary>
    public string? Gas { get; init; }

    /// <summary>Seconds spent once on entering and leaving, such as a walk-in with its inside release tested.</summary>
    public double EntrySeconds { get; init; }
}

/// <summary>Groups that share the air of one place: its background is read before the first of them is walked.</summary>
/// <param name="Background">Id of the background point, which forms a group of its own (pass <c>Background</c>).</param>
/// <param name="Groups">Ids of the groups it serves; none when a room is only passed through.</param>
public sealed record ProbeDepartment(string Background, IReadOnlyList<string> Groups);

/// <summary>What was decided about an element, with the reason, for the walk sheet.</summary>
/// <param name="Element">Fixture, room or equipment id.</param>
/// <param name="Text">A sentence.</param>
public sealed record ProbeNote(string Element, string Text);

/// <summary>The probe points of a store before they are ordered.</summary>
/// <param name="Points">Zero first, then backgrounds, fixtures and equipment in the plan's order.</param>
/// <param name="Groups">What is walked in one go; every point is in exactly one group.</param>
/// <param name="Departments">Which background comes before which groups.</param>
/// <param name="Notes">Fixtures that get fewer or no points, and why.</param>
public sealed record ProbeDraft(
    IReadOnlyList<ProbePoint> Points, IReadOnlyList<ProbeGroup> Groups, IReadOnlyList<ProbeDepartment> Departments,
    IReadOnlyList<ProbeNote> Notes);
