using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>By when repairs are due, in sentences; see <see cref="RepairDues"/>. Where nothing is over, a proposal.</summary>
internal static class RepairDates
{
    /// <summary>The dates in sentences.</summary>
    public static IEnumerable<string> Lines(Plan plan, ServiceRecord? record, LocateResult located, DateOnly day, Words words)
    {
        if (!plan.FileUnits.IsCustomary())
        {
            yield return words["date.eu"];
            yield break;
        }

        var over = RepairDues.Over(plan, record, day);
        foreach (var (system, percent, addition, due) in over)
        {
            yield return words.Say(
                due < day ? "date.us-late" : "date.us", Named(plan, system, located, words), Numbers.Fixed(percent, 1), Numbers.Whole(UsLeakRules.CommercialThresholdPercent), Days.Of(due), Numbers.Whole(RepairDues.RepairDays), Days.Of(addition));
        }

        if (over.Count == 0) yield return words.Say("date.proposal", Days.Of(day.AddDays(RepairDues.RepairDays)));
    }

    // With the cases whose leaks it has, so that a date is not taken for that of another system's leak.
    private static string Named(Plan plan, string system, LocateResult located, Words words)
    {
        var cases = ZoneNotes.Told(located).Where(z => plan.FindFixture(z.Fixture) is { } f && plan.SystemAt(f, z.Center ?? 0)?.Id == system).Select(z => plan.FindFixture(z.Fixture)!.Tag).Distinct().ToList();
        return cases.Count == 0 ? system : words.Say("date.system", system, string.Join(", ", cases));
    }
}
