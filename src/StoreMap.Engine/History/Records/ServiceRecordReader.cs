using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Reads a service record; every problem is reported before it is refused.</summary>
internal sealed class ServiceRecordReader(JsonObject root, Plan? plan, ProblemList problems)
{
    public const string FormatName = "storemap-service";

    public const int Major = 1;

    private const double MostKilograms = 50_000;

    private static readonly DateOnly First = new(1980, 1, 1), Last = new(2200, 1, 1);

    /// <summary>The record; null when the file is of another format. Not to be used when there are errors.</summary>
    public ServiceRecord? Read()
    {
        if (!HeaderReader.CheckFormat(root, problems, FormatName, Major, "service record")) return null;
        var unit = LengthUnits.FromSymbol(root["units"].Text());
        var header = new FieldReader(root, null, unit ?? plan?.Units ?? LengthUnit.Metre, problems);
        var store = header.RequiredText("store", "the id of the store's layout") ?? "";
        if (plan is not null && store.Length > 0 && store != plan.Id)
            header.Error("store", root["store"], "store", $"The record is of store {store}, the layout of {plan.Id}. Take the record of this store.");
        if (root["units"] is not null && unit is null)
            header.Error("units", root["units"], "word", $"The unit {JsonExcerpt.Of(root["units"])} is not known; allowed are m, ft, in, mm, one for every length in the file.");

        List<ServiceEntry> entries = [];
        var reader = new ServiceEntryReader(plan);
        foreach (var item in Items(header, "entries"))
        {
            if (item["at"] is not null && root["units"] is null)
                item.Error("at", item["at"], "required", "A distance needs the field units at the top of the file: m, ft, in or mm.");
            if (reader.Read(item) is { } entry) entries.Add(entry);
        }

        ServiceRules.Check(entries, problems);
        var kilograms = Weights(header);
        List<RefrigerantMovement> movements = [];
        foreach (var item in Items(header, "movements"))
        {
            if (Movement(item, kilograms, entries) is { } movement) movements.Add(movement);
        }

        return new ServiceRecord(store, entries, movements);
    }

    /// <summary>A required day; null, with an error, when absent or wrong.</summary>
    public static DateOnly? Date(FieldReader item, string field)
    {
        if (item.RequiredText(field, "a day such as 2026-06-12") is not { } text) return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date) && date >= First && date < Last)
            return date;
        item.Error(field, item[field], "date", $"{text} is no day; write year-month-day, such as 2026-06-12.");
        return null;
    }

    private IEnumerable<FieldReader> Items(FieldReader header, string list)
    {
        var nodes = header.List(list, 20_000);
        for (var i = 0; i < nodes.Count; i++)
        {
            var place = $"{list}[{i}]";
            if (nodes[i] is JsonObject map) yield return new FieldReader(map, place, header.Unit, problems);
            else header.WrongType(place, nodes[i], "an object in curly brackets");
        }
    }

    private double Weights(FieldReader header)
    {
        if (header["weightUnit"] is null && root["movements"] is not JsonArray { Count: > 0 }) return 1;
        if (header.RequiredText("weightUnit", "lb or kg, one for every weight in the file") is not { } unit) return 1;
        if (unit is "lb") return LengthUnits.KilogramsPerPound;
        if (unit is not "kg") header.Error("weightUnit", header["weightUnit"], "word", $"{unit} is no unit of weight here; allowed are lb and kg.");
        return 1;
    }

    private RefrigerantMovement? Movement(FieldReader item, double kilograms, List<ServiceEntry> entries)
    {
        var date = Date(item, "date");
        var system = item.RequiredText("system", "a system's id");
        var refrigerant = item.RequiredText("refrigerant", "a designation such as R-448A");
        var added = item.Number("added", 0, MostKilograms / kilograms);
        var recovered = item.Number("recovered", 0, MostKilograms / kilograms);
        var finding = item.Text("finding");
        if (item["added"] is null && item["recovered"] is null)
            item.Error("added", null, "required", "Neither added nor recovered is given; one of them is required, a weight of at least 0.");
        if (finding is not null && entries.All(e => e.Finding != finding))
            item.Warn("finding", item["finding"], "finding", $"No entry has the finding {finding}; the weight counts for the system all the same.");
        CheckSystem(item, system, refrigerant);
        return date is null || system is null || refrigerant is null ? null
            : new RefrigerantMovement(
                date.Value, system, Refrigerant.Find(refrigerant)?.Name ?? refrigerant, (added ?? 0) * kilograms, (recovered ?? 0) * kilograms, finding);
    }

    private void CheckSystem(FieldReader item, string? system, string? refrigerant)
    {
        var known = plan?.Systems.FirstOrDefault(s => s.Id == system);
        if (plan is not null && system is not null && known is null)
            item.Error("system", item["system"], "reference", $"The layout has no system {system}; name one of: {string.Join(", ", plan.Systems.Select(s => s.Id))}.");
        if (refrigerant is null) return;
        var found = Refrigerant.Find(refrigerant);
        if (found is null)
            item.Warn("refrigerant", item["refrigerant"], "refrigerant-known", $"{refrigerant} is not in the table of refrigerants; the name was kept as written.");
        if (known?.Refrigerant is { } own && !string.Equals(own, found?.Name ?? refrigerant, StringComparison.OrdinalIgnoreCase))
            item.Warn("refrigerant", item["refrigerant"], "refrigerant-differs", $"System {known.Id} holds {own}, but {refrigerant} was moved; it is counted as written. Check the type.");
    }
}
