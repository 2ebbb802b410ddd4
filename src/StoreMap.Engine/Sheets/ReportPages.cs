using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The text pages of a customer's report: page one for the manager, then findings, fixtures without a leak, method, instruments,
/// cautions and definitions. Maps and details are drawn by their own sheets and bound in by the caller.</summary>
public static class ReportPages
{
    /// <summary>Page one, for a manager: is it safe, what leaks, what next, what was not checked, does it add up, a place to sign.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The latest visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="balances">Refrigerant added against found leaks; may be empty.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    public static IReadOnlyList<Sheet> Manager(
        Plan plan, NetSurvey net, LocateResult located, IReadOnlyList<MassBalance> balances, SheetContext context)
    {
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        var words = set.Words;
        set.AddText(new SheetHead("summary", words["report.summary"], words["report.kind"]),
        [
            .. ReportNotes.Safety(plan, net, words), NoteItems.Rule(),
            .. ZoneNotes.Items(plan, located, words), NoteItems.Rule(),
            .. ReportNotes.Next(plan, located, words), NoteItems.Rule(),
            .. ReportNotes.NotChecked(plan, net, located, words), NoteItems.Rule(),
            .. balances.SelectMany(b => CompareNotes.BalanceLines(plan, b, words)),
            .. ReportNotes.Signature(words),
        ]);
        return set.Finish();
    }

    /// <summary>The record behind page one.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The latest visit.</param>
    /// <param name="located">What was located.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    public static IReadOnlyList<Sheet> Record(Plan plan, NetSurvey net, LocateResult located, ServiceRecord? record, SheetContext context)
    {
        var set = new SheetSet(plan, context, Days.Of(net.Survey.Start));
        var words = set.Words;
        set.AddText(new SheetHead("record", words["report.record"], words["report.kind"]),
        [
            .. ReportTables.Findings(plan, record, words), NoteItems.Gap(4),
            .. ReportTables.Quiet(plan, located, words), NoteItems.Gap(4),
            .. ReportTables.Rooms(net, words), NoteItems.Gap(4),
            .. ReportTables.Instruments(net, words), NoteItems.Gap(4),
            .. CautionNotes.All(words), NoteItems.Gap(4),
            .. ReportNotes.Definitions(words),
        ]);
        return set.Finish();
    }
}
