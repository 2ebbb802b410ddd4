using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>A service record assembled from its elements; what does not fit is left out and told, never the whole record.</summary>
/// <param name="File">The record.</param>
/// <param name="Entries">Where each of its entries came from, in its order.</param>
/// <param name="Movements">Where each of its movements came from, in its order.</param>
/// <param name="LeftOut">What was left out, and why.</param>
internal sealed record ServiceAssembly(ServiceRecordFile File, IReadOnlyList<ServiceItem> Entries, IReadOnlyList<ServiceItem> Movements, IReadOnlyList<Problem> LeftOut)
{
    /// <summary>Assembles by date; elements of one date stay in the order given.</summary>
    public static ServiceAssembly Read(Plan plan, IReadOnlyList<ServiceItem> items)
    {
        var lists = items.OrderBy(i => i.Date, StringComparer.Ordinal).GroupBy(i => i.List).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        var left = new List<Problem>();
        while (true)
        {
            var root = ServiceRecordWriter.Empty(plan.Id, ServiceJournal.Weights(plan), plan.Units);
            foreach (var (list, members) in lists) root[list] = new JsonArray([.. members.Select(m => m.Json.DeepClone())]);
            try
            {
                var file = ServiceRecordFile.Parse(LayoutWriter.Text(root), null, plan);
                return new ServiceAssembly(file, lists.GetValueOrDefault(ServiceItem.Entries) ?? [], lists.GetValueOrDefault(ServiceItem.Movements) ?? [], left);
            }
            catch (RefusedInputException refused)
            {
                var errors = refused.Problems.Where(p => p.Severity == Severity.Error).ToList();
                var bad = errors.Select(p => Place(p.Element)).OfType<(string List, int Index)>().Distinct().OrderByDescending(b => b.Index).ToList();
                if (bad.Count == 0) throw;
                left.AddRange(errors.Select(p => p with { Severity = Severity.Warning, Message = p.Message + " It was left out; it stays in the journal." }));
                foreach (var (list, index) in bad) lists[list].RemoveAt(index);
            }
        }
    }

    // "entries[3].tests[0]" is about entry 3.
    private static (string List, int Index)? Place(string? element)
    {
        if (element?.IndexOf('[', StringComparison.Ordinal) is not (> 0 and var open)) return null;
        var shut = element.IndexOf(']', open);
        return int.TryParse(element.AsSpan(open + 1, shut - open - 1), CultureInfo.InvariantCulture, out var index) ? (element[..open], index) : null;
    }
}
