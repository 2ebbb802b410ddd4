using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>A leak confirmed behind a panel during a visit.</summary>
/// <param name="Survey">The visit's survey.</param>
/// <param name="Look">The look behind the panel.</param>
/// <param name="Technician">Who was there; null when not known.</param>
public sealed record FoundPanel(string Survey, PanelLook Look, string? Technician)
{
    /// <summary>All of a visit.</summary>
    /// <param name="survey">The survey's id.</param>
    /// <param name="state">Its replay.</param>
    public static IEnumerable<FoundPanel> Of(string survey, JournalState state)
    {
        var technician = string.Join(", ", state.File["technicians"]?.AsArray().Select(t => (string?)t) ?? []);
        return state.Panels.Where(p => p.Leak).Select(p => new FoundPanel(survey, p, technician.Length > 0 ? technician : null));
    }
}

/// <summary>One entry of a finding, with where it came from.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Event">The event that carries it; null for a panel.</param>
/// <param name="Panel">The panel behind which the leak was confirmed; null for an event.</param>
public sealed record ServiceLine(ServiceEntry Entry, JournalEvent? Event, FoundPanel? Panel);

/// <summary>Refrigerant weighed for a finding.</summary>
/// <param name="Movement">What was moved.</param>
/// <param name="Event">The event that carries it, the same as that of an entry noted with it.</param>
public sealed record ServiceWeight(RefrigerantMovement Movement, JournalEvent? Event);

/// <summary>A finding from its first entry to its last.</summary>
public sealed record FindingStory
{
    /// <summary>How it stands.</summary>
    public required ServiceFinding Finding { get; init; }

    /// <summary>Its entries by date.</summary>
    public required IReadOnlyList<ServiceLine> Lines { get; init; }

    /// <summary>Refrigerant weighed for it, by date.</summary>
    public required IReadOnlyList<ServiceWeight> Weights { get; init; }

    /// <summary>Ids of the entries that no other was made after. The next entry names them, which says that its writer knew them.</summary>
    public required IReadOnlyList<string> Latest { get; init; }

    /// <summary>Entries that were a mistake and were taken back.</summary>
    public required IReadOnlyList<JournalEvent> TakenBack { get; init; }

    /// <summary>Ids of photos noted of it in the service journal, in order.</summary>
    public required IReadOnlyList<string> Photos { get; init; }

    /// <summary>True when entries were made apart, each writer not knowing the other's. All of them count; the next entry settles it.</summary>
    public bool IsApart => Latest.Count > 1;
}

/// <summary>What a store's service journal and confirmed panels come to.</summary>
/// <param name="File">The service record, to be written as a file.</param>
/// <param name="Stories">One per finding, in the order of their first entries.</param>
/// <param name="LeftOut">Entries that don't fit the plan or the format, and why; they stay in the journal.</param>
/// <param name="Conflicts">One id with two contents, in words.</param>
public sealed record ServiceState(ServiceRecordFile File, IReadOnlyList<FindingStory> Stories, IReadOnlyList<Problem> LeftOut, IReadOnlyList<string> Conflicts);
