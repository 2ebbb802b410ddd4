using System.Globalization;
using System.Text.Json;

namespace StoreMap.Plans;

/// <summary>Reads circuits and systems.</summary>
internal static class RefrigerationReader
{
    private const double MostKilograms = 50_000;
    private static readonly string[] DefrostKinds = ["off-cycle", "electric", "hot-gas"];

    /// <summary>Reads a circuit.</summary>
    public static Circuit Circuit(FieldReader reader, LayoutElements elements)
    {
        var system = elements.Reference(reader, "system", LayoutLists.Systems);
        if (reader["system"] is null) reader.Warn("system", null, "no-system", "The circuit names no system, so its refrigerant is unknown.");
        return new Circuit(reader.Element!, system, Shutoffs(reader), reader.Nested("defrost") is { } defrost ? Defrost(defrost) : null);
    }

    /// <summary>Reads a system.</summary>
    public static RefrigerationSystem System(FieldReader reader)
    {
        var type = reader.Word<SystemType>("type") ?? SystemType.Direct;
        var charge = Charge(reader);
        if (reader["charge"] is null) reader.Warn("charge", null, "no-charge", "The system's charge is not given, so losses can't be set against it.");
        return new RefrigerationSystem(reader.Element!, type, Refrigerant(reader, "The system's"), charge);
    }

    /// <summary>Reads a refrigerant's designation: its usual form when known, else as written, with a warning; also warns when absent.</summary>
    public static string? Refrigerant(FieldReader reader, string whose)
    {
        var written = reader.Text("refrigerant");
        if (written is null)
        {
            if (reader["refrigerant"] is null) reader.Warn("refrigerant", null, "no-refrigerant", $"{whose} refrigerant is not given, so limits and strengths can't be told.");
            return null;
        }

        if (Plans.Refrigerant.Find(written) is { } known) return known.Name;
        reader.Warn("refrigerant", reader["refrigerant"], "refrigerant-known",
            $"{written} is not in the table of refrigerants, so its limits and strengths can't be told. Known are: {string.Join(", ", Plans.Refrigerant.All.Select(r => r.Name))}.");
        return written;
    }

    /// <summary>Reads a charge with its unit, in kilograms; null when absent or wrong.</summary>
    public static double? Charge(FieldReader reader)
    {
        var unit = reader.Text("chargeUnit");
        double? kilograms = unit switch
        {
            "lb" => LengthUnits.KilogramsPerPound,
            "oz" => LengthUnits.KilogramsPerPound / 16,
            "kg" => 1,
            "g" => 0.001,
            null => DefaultUnit(reader),
            _ => null,
        };
        if (kilograms is null) reader.Error("chargeUnit", reader["chargeUnit"], "word", $"{unit} is no unit of charge; allowed are: lb, oz, kg, g.");
        var inKilograms = kilograms ?? 1;
        var charge = reader.Number("charge", 0, MostKilograms / inKilograms);
        if (charge != 0) return charge * inKilograms;
        reader.Error("charge", reader["charge"], "number-range", "The charge is 0; give the full charge, or leave the field out when it is unknown.");
        return null;
    }

    private static double DefaultUnit(FieldReader reader)
    {
        var pounds = reader.Unit is LengthUnit.Foot or LengthUnit.Inch;
        if (reader["charge"] is not null && reader["chargeUnit"] is null)
        {
            reader.Warn("chargeUnit", null, "no-charge-unit", $"The charge has no unit; {(pounds ? "lb is taken, as the layout is in feet or inches" : "kg is taken, as the layout is metric")}.");
        }

        return pounds ? LengthUnits.KilogramsPerPound : 1;
    }

    private static List<Shutoff> Shutoffs(FieldReader reader)
    {
        var nodes = reader.List("shutoffs");
        List<Shutoff> shutoffs = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (reader.NestedOf($"shutoffs[{i}]", nodes[i]) is { } nested) shutoffs.Add(new Shutoff(nested.Point("at"), nested.Text("note")));
        }

        return shutoffs;
    }

    private static Defrost? Defrost(FieldReader reader)
    {
        var kind = reader.RequiredText("kind", "one of " + string.Join(", ", DefrostKinds));
        if (kind is not null && !DefrostKinds.Contains(kind))
        {
            reader.Error("kind", reader["kind"], "word", $"{kind} is no kind of defrost; allowed are: {string.Join(", ", DefrostKinds)}.");
        }

        var nodes = reader.List("starts", 48);
        List<TimeOnly> starts = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            var text = nodes[i]?.GetValueKind() == JsonValueKind.String ? nodes[i]!.GetValue<string>() : null;
            if (TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)) starts.Add(time);
            else reader.Error($"starts[{i}]", nodes[i], "time", "A start is a local time in quotes, hours and minutes, such as \"02:00\".");
        }

        return kind is null ? null : new Defrost(kind, starts, reader.Number("minutes", 1, 240) ?? DefaultMinutes);
    }

    // Common practice: off-cycle, electric and hot-gas defrosts run a quarter to three quarters of an hour.
    private const double DefaultMinutes = 30;
}
