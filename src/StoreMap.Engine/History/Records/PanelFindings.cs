using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Makes entries of leaks that were confirmed behind panels.</summary>
internal static class PanelFindings
{
    // As zones of one fixture at two visits: so near, they are one.
    private const double SlackMetres = 0.3;

    /// <summary>The finding that a leak confirmed behind a panel opens, unless one was open there already.</summary>
    /// <param name="panel">Panel id.</param>
    /// <param name="day">Day on which it was found.</param>
    public static string IdOf(string panel, DateOnly day) => FormattableString.Invariant($"{panel} {day:yyyy-MM-dd}");

    /// <summary>One entry a panel, in time order.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="noted">The record without them.</param>
    /// <param name="file">Says the units to write in.</param>
    /// <param name="panels">The panels.</param>
    public static List<ServiceItem> Items(Plan plan, ServiceAssembly noted, JsonObject file, IEnumerable<FoundPanel> panels)
    {
        var items = new List<ServiceItem>();
        // Beside each entry whether a device noted it: on its day it comes after what was found.
        var entries = noted.File.Record.Entries.Zip(noted.Entries, (e, i) => (Entry: e, ByDevice: !i.IsOfFile)).ToList();
        foreach (var found in panels.OrderBy(p => p.Look.Time).ThenBy(p => p.Look.Event, StringComparer.Ordinal))
        {
            if (Opening(plan, found) is not var (fixture, panel, entry)) continue;
            if (!entries.Exists(e => e.Entry.Finding == entry.Finding)) entry = Joined(entry, fixture, panel, entries);
            entries.Add((entry, false));
            items.Add(new ServiceItem(ServiceItem.Entries, ServiceRecordWriter.Entry(entry, file), null, found));
        }

        return items;
    }

    private static (Fixture Fixture, Panel? Panel, ServiceEntry Entry)? Opening(Plan plan, FoundPanel found)
    {
        var slash = found.Look.Panel.LastIndexOf('/');
        if (slash < 0 || plan.FindFixture(found.Look.Panel[..slash]) is not { } fixture) return null;
        var panel = fixture.Panels.FirstOrDefault(p => p.Id == found.Look.Panel);
        // The look's own clock and offset: the same day on every device and on the server.
        var day = found.Look.LiftedOn;
        return (fixture, panel, new ServiceEntry
        {
            Finding = IdOf(found.Look.Panel, day), Date = day, Fixture = fixture.Id, Along = panel is null ? null : (panel.From + panel.To) / 2,
            Status = FindingStatus.Open, Spot = $"behind panel {found.Look.Panel[(slash + 1)..]}", Component = found.Look.Component, Technician = found.Technician,
        });
    }

    // To the finding that was open there before the day, or that a file or another panel opens on it.
    private static ServiceEntry Joined(ServiceEntry entry, Fixture fixture, Panel? panel, List<(ServiceEntry Entry, bool ByDevice)> entries)
    {
        ServiceRecord Until(Func<(ServiceEntry Entry, bool ByDevice), bool> known) => new("", [.. entries.Where(known).Select(e => e.Entry).OrderBy(e => e.Date)], []);
        var before = ServiceFinding.Of(Until(e => e.Entry.Date < entry.Date)).ToDictionary(f => f.Entry.Finding, StringComparer.Ordinal);
        var there = ServiceFinding.Of(Until(e => e.Entry.Date < entry.Date || (e.Entry.Date == entry.Date && !e.ByDevice)))
            .LastOrDefault(f => f.Entry.Fixture == fixture.Id && before.GetValueOrDefault(f.Entry.Finding)?.IsRepaired != true && Lies(fixture, f.Entry, panel));
        return there is null ? entry : entry with { Finding = there.Entry.Finding, Along = there.Entry.Along is null ? entry.Along : null, Status = there.Entry.Status };
    }

    private static bool Lies(Fixture fixture, ServiceEntry entry, Panel? panel)
    {
        if (panel is null) return false;
        if (entry.Along is { } along) return along >= panel.From - SlackMetres && along <= panel.To + SlackMetres;
        return fixture.Sections.FirstOrDefault(s => s.Number == entry.Section) is not { } section || (section.From <= panel.To && section.To >= panel.From);
    }
}
