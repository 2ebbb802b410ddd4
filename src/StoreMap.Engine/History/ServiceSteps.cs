namespace StoreMap.History;

/// <summary>What can be done next about a finding.</summary>
public enum ServiceStep
{
    /// <summary>Valve it off.</summary>
    Isolate,

    /// <summary>Repair it.</summary>
    Repair,

    /// <summary>Test the repair before refrigerant goes back in.</summary>
    InitialTest,

    /// <summary>Test it again in normal running.</summary>
    FollowUpTest,

    /// <summary>It leaks again.</summary>
    Reopen,

    /// <summary>Say something more; nothing changes.</summary>
    Note,
}

/// <summary>The order of a finding's life: found, perhaps isolated, repaired, tested, tested again; reopened from anywhere after a repair.
/// A repair is no more than a claim until a test passed: repair, initial and follow-up verification as 40 CFR 82.157 has them.</summary>
public static class ServiceSteps
{
    /// <summary>Steps that may follow, the usual one first.</summary>
    /// <param name="status">How the finding stands.</param>
    public static IReadOnlyList<ServiceStep> After(FindingStatus status) => status switch
    {
        FindingStatus.Open or FindingStatus.Reopened => [ServiceStep.Repair, ServiceStep.Isolate, ServiceStep.Note],
        FindingStatus.Isolated => [ServiceStep.Repair, ServiceStep.Reopen, ServiceStep.Note],
        FindingStatus.Repaired => [ServiceStep.InitialTest, ServiceStep.Reopen, ServiceStep.Note],
        FindingStatus.Verified => [ServiceStep.FollowUpTest, ServiceStep.Reopen, ServiceStep.Note],
        _ => [ServiceStep.Reopen, ServiceStep.Note],
    };

    /// <summary>The kind of test a step is, as in the record; null when it is none.</summary>
    /// <param name="step">The step.</param>
    public static string? TestKind(ServiceStep step) => step switch
    {
        ServiceStep.InitialTest => "initial",
        ServiceStep.FollowUpTest => "follow-up",
        _ => null,
    };

    /// <summary>How a finding stands after a step. A failed test reopens it: what was repaired leaks.</summary>
    /// <param name="step">The step.</param>
    /// <param name="before">How it stood.</param>
    /// <param name="passed">For a test, whether it was passed.</param>
    public static FindingStatus Outcome(ServiceStep step, FindingStatus before, bool passed) => step switch
    {
        ServiceStep.Isolate => FindingStatus.Isolated,
        ServiceStep.Repair => FindingStatus.Repaired,
        ServiceStep.InitialTest => passed ? FindingStatus.Verified : FindingStatus.Reopened,
        ServiceStep.FollowUpTest => passed ? FindingStatus.FollowedUp : FindingStatus.Reopened,
        ServiceStep.Reopen => FindingStatus.Reopened,
        _ => before,
    };

    /// <summary>What stands against a step; null when nothing does.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="step">The step.</param>
    /// <param name="day">Its day.</param>
    /// <param name="today">Today where the store is.</param>
    public static string? Against(ServiceFinding finding, ServiceStep step, DateOnly day, DateOnly today)
    {
        if (!After(finding.Entry.Status).Contains(step)) return $"The finding is {finding.InWords()}, so this step does not follow. Look at its entries: another device may have added one.";
        if (day < finding.Entry.Date) return $"The day {Words.Date(day)} is before the finding's latest entry of {Words.Date(finding.Entry.Date)}. Give that day or a later one.";
        return NotYetCome(day, today);
    }

    /// <summary>What stands against the day of an entry; null when it has come.</summary>
    /// <param name="day">The day.</param>
    /// <param name="today">Today where the store is.</param>
    public static string? NotYetCome(DateOnly day, DateOnly today) =>
        day > today ? $"The day {Words.Date(day)} has not come yet. Give today, {Words.Date(today)}, or an earlier day." : null;
}
