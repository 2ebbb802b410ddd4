namespace StoreMap.History;

/// <summary>One finding as the record has it on a day: the entries so far, the later over the earlier.</summary>
public sealed record ServiceFinding
{
    /// <summary>The merged entry; its date is that of the latest entry.</summary>
    public required ServiceEntry Entry { get; init; }

    /// <summary>Day of its first entry.</summary>
    public required DateOnly Opened { get; init; }

    /// <summary>Day it was repaired, after the last reopening; null when it was not.</summary>
    public DateOnly? Repaired { get; init; }

    /// <summary>Day it was verified: that of the passed initial test, else of the entry that says so; null when it was not.</summary>
    public DateOnly? Verified { get; init; }

    /// <summary>Day it was followed up: that of the passed follow-up test, else of the entry that says so; null when it was not.</summary>
    public DateOnly? FollowedUp { get; init; }

    /// <summary>Day it was last reopened; null when it never was.</summary>
    public DateOnly? Reopened { get; init; }

    /// <summary>True when a passed test stands behind "verified".</summary>
    public bool TestOnRecord { get; init; }

    /// <summary>True when the repair also passed a follow-up test on record.</summary>
    private bool Held => TestOnRecord && Verified is { } verified && Entry.Tests.Any(t => t.Kind == "follow-up" && t.Passed && t.Date >= verified);

    /// <summary>True when it counts as repaired on the day.</summary>
    public bool IsRepaired => Repaired is not null;

    /// <summary>All findings as they stand on a day.</summary>
    /// <param name="record">The record.</param>
    /// <param name="asOf">Later entries are left out; null for all.</param>
    /// <returns>One per finding with an entry by then, in the order of their first entries in the file.</returns>
    public static IReadOnlyList<ServiceFinding> Of(ServiceRecord record, DateOnly? asOf = null) =>
        [.. record.Entries.Where(e => asOf is null || e.Date <= asOf).GroupBy(e => e.Finding).Select(g => Merge([.. g.OrderBy(e => e.Date)]))];

    /// <summary>The leaks behind the findings, as they stand on a day: one each, and one more for every reopening after a passed follow-up test.
    /// That test closed what was before; what is found later is another leak (40 CFR 82.157, 84.106).</summary>
    /// <param name="record">The record.</param>
    /// <param name="asOf">Later entries are left out.</param>
    internal static IReadOnlyList<ServiceFinding> Leaks(ServiceRecord record, DateOnly asOf) =>
        [.. record.Entries.Where(e => e.Date <= asOf).GroupBy(e => e.Finding).SelectMany(g => Leaks([.. g.OrderBy(e => e.Date)]))];

    /// <summary>What became of it, such as <c>repaired 2026-06-12, verified</c>.</summary>
    public string InWords()
    {
        var said = Entry.Status switch
        {
            FindingStatus.Open => $"open since {Words.Date(Opened)}",
            FindingStatus.Isolated => $"isolated {Words.Date(Entry.Date)}",
            FindingStatus.Reopened => $"reopened {Words.Date(Reopened ?? Entry.Date)}",
            _ => $"repaired {Words.Date(Repaired ?? Entry.Date)}, {Checks()}",
        };
        var failed = Entry.Tests.LastOrDefault(t => !t.Passed && t.Date >= (Reopened ?? Repaired ?? Opened));
        return failed is null || Verified is not null ? said : $"{said}; the {failed.Kind} test of {Words.Date(failed.Date)} failed";
    }

    private string Checks()
    {
        if (Verified is not { } day) return "not yet verified";
        var verified = day == Repaired ? "verified" : $"verified {Words.Date(day)}";
        if (!TestOnRecord) verified += " (no test on record)";
        return FollowedUp is { } later ? $"{verified}, followed up {Words.Date(later)}" : verified;
    }

    private static IEnumerable<ServiceFinding> Leaks(ServiceEntry[] entries)
    {
        var first = 0;
        for (var i = 1; i < entries.Length; i++)
        {
            if (entries[i].Status != FindingStatus.Reopened || Merge(entries[first..i]) is not { Held: true } closed) continue;
            yield return closed;
            first = i;
        }

        yield return Merge(entries[first..]);
    }

    private static ServiceFinding Merge(ServiceEntry[] entries)
    {
        var merged = entries[0];
        DateOnly? repaired = null, verified = null, followedUp = null, reopened = null;
        List<VerificationTest> tests = [];
        foreach (var entry in entries)
        {
            foreach (var test in entry.Tests)
            {
                if (!tests.Contains(test)) tests.Add(test);
            }

            if (entry.Status == FindingStatus.Reopened) (repaired, verified, followedUp, reopened) = (null, null, null, entry.Date);
            if (entry.Status is FindingStatus.Open or FindingStatus.Isolated) (repaired, verified, followedUp) = (null, null, null);
            if (entry.Status >= FindingStatus.Repaired && entry.Status != FindingStatus.Reopened) repaired ??= entry.Date;
            if (entry.Status is FindingStatus.Verified or FindingStatus.FollowedUp) verified ??= Passed(tests, "initial", reopened) ?? entry.Date;
            if (entry.Status == FindingStatus.FollowedUp) followedUp ??= Passed(tests, "follow-up", reopened) ?? entry.Date;
            merged = Over(merged, entry);
        }

        if (verified < repaired) repaired = verified;
        return new ServiceFinding
        {
            Entry = merged with { Tests = tests }, Opened = entries[0].Date, Repaired = repaired, Verified = verified,
            FollowedUp = followedUp, Reopened = reopened, TestOnRecord = Passed(tests, "initial", reopened) is not null,
        };
    }

    private static DateOnly? Passed(List<VerificationTest> tests, string kind, DateOnly? after)
    {
        var test = tests.LastOrDefault(t => t.Kind == kind && t.Passed && (after is null || t.Date >= after));
        return test?.Date;
    }

    private static ServiceEntry Over(ServiceEntry before, ServiceEntry now) => now with
    {
        Fixture = now.Fixture ?? before.Fixture, Equipment = now.Equipment ?? before.Equipment, Section = now.Section ?? before.Section,
        Along = now.Along ?? before.Along, Spot = now.Spot ?? before.Spot, Component = now.Component ?? before.Component,
        Fault = now.Fault ?? before.Fault, Pinpointed = now.Pinpointed ?? before.Pinpointed, Repair = now.Repair ?? before.Repair,
        WorkOrder = now.WorkOrder ?? before.WorkOrder, Technician = now.Technician ?? before.Technician,
        Certificate = now.Certificate ?? before.Certificate, Note = now.Note ?? before.Note,
    };
}
