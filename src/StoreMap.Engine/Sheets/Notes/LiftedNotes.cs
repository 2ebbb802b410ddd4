using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>What lifting panels has shown at a visit: leaks confirmed behind them, which are repaired and no longer sought, and panels
/// found empty, which are not among those to lift next.</summary>
internal static class LiftedNotes
{
    /// <summary>A finding this near a panel's edges is of the leak behind it, metres.</summary>
    private const double SlackMetres = 0.3;

    /// <summary>Panels with a leak behind them, each once, in the order of lifting.</summary>
    public static IReadOnlyList<PanelCheck> Found(LocateResult located) =>
        [.. located.Lifted.Where(c => c.LeakFound).GroupBy(c => c.Panel).Select(g => g.LastOrDefault(c => c.Component is not null) ?? g.First())];

    /// <summary>The panel behind which a zone's leak was confirmed; null when none was.</summary>
    public static PanelCheck? FoundOf(LocateResult located, LeakZone zone) => Found(located).FirstOrDefault(c => ReferenceEquals(ZoneOf(located, c.Panel), zone));

    /// <summary>Panels of a zone's case that hid nothing, each once, in the order of lifting.</summary>
    public static IReadOnlyList<string> Empty(LocateResult located, LeakZone zone)
    {
        var found = Found(located).Select(c => c.Panel).ToHashSet();
        return [.. located.Lifted.Select(c => c.Panel).Where(p => PlaceWords.CaseOf(p) == zone.Fixture && !found.Contains(p)).Distinct()];
    }

    /// <summary>A zone's panels still to be lifted, in the order of opening; none once its leak is confirmed.</summary>
    public static IEnumerable<PanelChance> Left(LocateResult located, LeakZone zone)
    {
        if (FoundOf(located, zone) is not null) return [];
        var empty = Empty(located, zone);
        return ZoneNotes.InOrder(located, zone).Where(p => !empty.Contains(p.Id));
    }

    /// <summary>What lifting has shown of a zone, in a sentence; empty where none of its case's panels was lifted.</summary>
    public static string Of(LocateResult located, LeakZone zone, Words words)
    {
        if (FoundOf(located, zone) is { } found)
        {
            var number = PlaceWords.PanelNumber(found.Panel);
            return found.Component is { } component ? words.Say("zone.found-what", number, component) : words.Say("zone.found", number);
        }

        var empty = Empty(located, zone);
        return empty.Count == 0 ? "" : words.Say(empty.Count == 1 ? "zone.empty" : "zone.empty-some", string.Join(", ", empty.Select(PlaceWords.PanelNumber)));
    }

    /// <summary>True where the service record has the leak behind a panel as repaired on the day it was found.</summary>
    public static bool IsRepaired(Plan plan, PanelCheck check, IReadOnlyList<ServiceFinding> findings, DateOnly day)
    {
        var there = FindingsAt(plan, check, findings);
        return there.Any(f => f.Repaired >= day) && there.All(f => f.IsRepaired);
    }

    /// <summary>Findings of the service record whose place is behind a panel.</summary>
    public static IReadOnlyList<ServiceFinding> FindingsAt(Plan plan, PanelCheck check, IReadOnlyList<ServiceFinding> findings)
    {
        var fixture = PlaceWords.CaseOf(check.Panel);
        return plan.FindFixture(fixture)?.Panels.FirstOrDefault(p => p.Id == check.Panel) is not { } panel ? []
            : [.. findings.Where(f => f.Entry.Fixture == fixture && f.Entry.Along is { } along && along >= panel.From - SlackMetres && along <= panel.To + SlackMetres)];
    }

    /// <summary>The zone of a panel's case that puts its leak most probably behind the panel; null when none does.</summary>
    private static LeakZone? ZoneOf(LocateResult located, string panel) =>
        located.Zones.Where(z => z.Panels.Any(p => p.Id == panel)).MaxBy(z => z.Probability * z.Panels.First(p => p.Id == panel).Probability);
}
