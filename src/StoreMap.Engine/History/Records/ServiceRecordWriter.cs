using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>Makes the JSON of what is added to a service record, in the units of its file.</summary>
internal static class ServiceRecordWriter
{
    public static JsonObject Empty(string store, WeightUnit weights, LengthUnit lengths) => new()
    {
        ["format"] = $"{ServiceRecordReader.FormatName}/{ServiceRecordReader.Major}", ["store"] = store,
        ["units"] = lengths.Symbol(), ["weightUnit"] = weights == WeightUnit.Pound ? "lb" : "kg",
        ["entries"] = new JsonArray(), ["movements"] = new JsonArray(),
    };

    public static JsonObject Entry(ServiceEntry entry, JsonObject root)
    {
        var unit = LengthUnits.FromSymbol((string?)root["units"]) ?? LengthUnit.Metre;
        var item = new JsonObject { ["finding"] = entry.Finding, ["date"] = Date(entry.Date) };
        Add(item, "fixture", entry.Fixture);
        Add(item, "equipment", entry.Equipment);
        if (entry.Section is { } section) item["section"] = section;
        if (entry.Along is { } along) item["at"] = FileNumber.InUnit(along, unit);
        Add(item, "spot", entry.Spot);
        Add(item, "component", entry.Component);
        Add(item, "fault", entry.Fault);
        Add(item, "pinpointed", entry.Pinpointed);
        Add(item, "repair", entry.Repair);
        if (entry.Tests.Count > 0) item["tests"] = new JsonArray([.. entry.Tests.Select(Test)]);
        item["status"] = entry.Status.Kebab();
        Add(item, "workOrder", entry.WorkOrder);
        Add(item, "technician", entry.Technician);
        Add(item, "certificate", entry.Certificate);
        Add(item, "note", entry.Note);
        return item;
    }

    public static JsonObject Movement(RefrigerantMovement movement, JsonObject root)
    {
        var pounds = (string?)root["weightUnit"] == "lb";
        var item = new JsonObject { ["date"] = Date(movement.Date), ["system"] = movement.System, ["refrigerant"] = movement.Refrigerant };
        if (movement.AddedKilograms != 0) item["added"] = Weight(movement.AddedKilograms);
        if (movement.RecoveredKilograms != 0) item["recovered"] = Weight(movement.RecoveredKilograms);
        Add(item, "finding", movement.Finding);
        return item;

        // Scales weigh to a gram at best.
        double Weight(double kilograms) => Math.Round(pounds ? kilograms / LengthUnits.KilogramsPerPound : kilograms, 4);
    }

    private static JsonNode Test(VerificationTest test) => new JsonObject
    {
        ["date"] = Date(test.Date), ["kind"] = test.Kind, ["method"] = test.Method, ["passed"] = test.Passed,
    };

    private static string Date(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Add(JsonObject item, string field, string? value)
    {
        if (value is not null) item[field] = value;
    }
}
