using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The text pages of a customer's report: page one for the manager, the record behind it, and the repair cards. Maps and details
/// are drawn by their own sheets and bound in by the caller.</summary>
public static class ReportPages
{
    /// <summary>What page one tells of the visit's journal.</summary>
    private enum Told
    {
        /// <summary>Nothing: the record has it.</summary>
        Nothing,

        /// <summary>How much was not put back, and how many points were left out.</summary>
        Briefly,

        /// <summary>What was not put back and who has it, and how many points were left out.</summary>
        InFull,
    }

    /// <summary>Leaks told on page one, names in one of its lists, systems in its balance, whether the course since earlier visits is told, and
    /// what of the journal: the first that leave it one page. Leaks are cut last.</summary>
    private static readonly (int Leaks, int Names, int Systems, bool Course, Told Journal)[] Cuts =
    [
        (6, 8, 8, true, Told.InFull), (6, 6, 4, true, Told.InFull), (6, 4, 3, true, Told.InFull), (6, 4, 2, true, Told.InFull), (6, 3, 2, true, Told.InFull),
        (6, 2, 2, true, Told.InFull), (6, 2, 1, true, Told.InFull), (6, 1, 1, true, Told.InFull), (6, 1, 1, false, Told.InFull),
        .. new[] { 6, 5, 4, 3, 2, 1 }.SelectMany(leaks => new[] { (leaks, 1, 1, false, Told.Briefly), (leaks, 1, 1, false, Told.Nothing) }),
    ];

    /// <summary>What the whole report is called.</summary>
    public static string Title(Plan plan, SheetContext context) => $"{Words.For(context.Language)["report.kind"]}, {plan.Name}";

    /// <summary>Page one, for a manager: is it safe, what leaks, what next and by when, what was not checked, does it add up, a place to
    /// sign. Always one page: long lists are cut with a count of the rest, which the record has in full.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The latest visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="comparison">The visits against one another, and refrigerant added against found leaks; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="account">What the visit's journals tell beside its readings; null without one.</param>
    public static IReadOnlyList<Sheet> Manager(
        Plan plan, NetSurvey net, LocateResult located, Comparison? comparison, SheetContext context, ServiceRecord? record = null, VisitAccount? account = null)
    {
        var balances = comparison?.Balances ?? [];
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        var words = set.Words;
        IReadOnlyList<FlowItem> Items((int Leaks, int Names, int Systems, bool Course, Told Journal) cut) =>
        [
            .. SafetyNotes.Safety(plan, net, words, Math.Min(3, cut.Names)), NoteItems.Rule(),
            .. ZoneNotes.Callouts(plan, net, located, words, cut.Leaks, brief: true),
            .. ReportNotes.NotFound(plan, balances, words, cut.Systems), .. cut.Course ? ReportNotes.Course(plan, comparison, words, cut.Names) : [], NoteItems.Rule(),
            .. ReportNotes.Next(plan, net, located, balances, record, cut.Journal == Told.Nothing ? [] : HappenedNotes.PutBack(plan, account, words, cut.Journal == Told.Briefly), words, cut.Names), NoteItems.Rule(),
            .. ReportNotes.NotChecked(plan, net, located, cut.Journal == Told.Nothing ? 0 : GapNotes.PointsLeft(located, account), words, cut.Names), NoteItems.Rule(),
            .. ReportNotes.Balance(plan, balances, record, words, cut.Systems),
            .. ReportNotes.Signature(words),
        ];
        // A millimetre to spare, for heights that add up a little differently when they are set.
        var room = set.TextColumns(1)[0];
        var fit = Cuts.Index().First(c => c.Index == Cuts.Length - 1 || FlowColumns.Height(Items(c.Item), room.Width) <= room.Height - 1).Item;
        set.AddText(new SheetHead("summary", words["report.summary"], words["report.kind"]), Items(fit));
        return set.Finish();
    }

    /// <summary>The record behind page one.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The latest visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <param name="balances">Refrigerant added against found leaks; null or empty leaves them out.</param>
    /// <param name="account">What the visit's journals tell beside its readings; null without one.</param>
    public static IReadOnlyList<Sheet> Record(
        Plan plan, NetSurvey net, LocateResult located, ServiceRecord? record, SheetContext context, IReadOnlyList<MassBalance>? balances = null, VisitAccount? account = null)
    {
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        var words = set.Words;
        set.AddText(new SheetHead("record", words["report.record"], words["report.kind"]),
        [
            .. ReportTables.Found(plan, net, located, words), NoteItems.Gap(4),
            .. ReportTables.Findings(plan, record, words), NoteItems.Gap(4),
            .. CoverageTable.Items(plan, net, words), NoteItems.Gap(4),
            .. GapNotes.Items(plan, located, account, words), .. HappenedNotes.Items(plan, net, account, words),
            .. balances is { Count: > 0 } ? balances.SelectMany(b => CompareNotes.BalanceLines(plan, b, words)).Prepend(NoteItems.Heading(words["balance.heading"])).Append(NoteItems.Gap(4)) : [],
            .. ReportTables.Quiet(plan, net, located, words), NoteItems.Gap(4),
            .. ReportTables.Rooms(net, words), NoteItems.Gap(4),
            .. ReportTables.Instruments(net, words), NoteItems.Gap(4),
            .. CautionNotes.All(plan, words), NoteItems.Gap(4),
            .. ReportNotes.Definitions(words),
        ]);
        return set.Finish();
    }

    /// <summary>Repair cards, two to the page, one per leak zone and per source outside the cases.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The latest visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <returns>Empty when nothing was found.</returns>
    public static IReadOnlyList<Sheet> Cards(Plan plan, NetSurvey net, LocateResult located, ServiceRecord? record, SheetContext context)
    {
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        var words = set.Words;
        var half = set.TextColumns(1)[0].Height / 2;
        set.AddText(new SheetHead("repair-cards", words["card.heading"], words["report.kind"]), RepairCards.Items(plan, net, located, record, words, half - 0.1));
        return set.Finish();
    }
}
