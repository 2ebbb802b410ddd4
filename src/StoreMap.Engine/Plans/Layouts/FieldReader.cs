using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads the fields of one JSON object, reporting each that is not what it should be; absent and <c>null</c> are the same.</summary>
/// <param name="source">The object.</param>
/// <param name="element">Id of the element, or its place in the file.</param>
/// <param name="unit">The layout's unit.</param>
/// <param name="problems">Where problems go.</param>
/// <param name="path">The object's own place within the element, such as <c>defrost.</c>; empty for the element itself.</param>
internal sealed class FieldReader(JsonObject source, string? element, LengthUnit unit, ProblemList problems, string path = "")
{
    /// <summary>Id of the element, or its place in the file.</summary>
    public string? Element => element;

    /// <summary>The layout's unit.</summary>
    public LengthUnit Unit => unit;

    /// <summary>Where problems go.</summary>
    public ProblemList Problems => problems;

    /// <summary>The raw value; null when absent.</summary>
    public JsonNode? this[string field] => source[field];

    /// <summary>Reports an error in a field.</summary>
    public void Error(string field, JsonNode? value, string rule, string message) =>
        problems.Error(element, path + field, JsonExcerpt.Of(value), rule, message);

    /// <summary>Reports a warning on a field.</summary>
    public void Warn(string field, JsonNode? value, string rule, string message) =>
        problems.Warn(element, path + field, JsonExcerpt.Of(value), rule, message);

    /// <summary>Reports a required field as missing when it is.</summary>
    /// <returns>True when it is there.</returns>
    public bool Require(string field, string what)
    {
        if (source[field] is not null) return true;
        Error(field, null, "required", $"The field {path}{field} is missing; it is required: {what}.");
        return false;
    }

    /// <summary>A text; null when absent, wrong or blank.</summary>
    public string? Text(string field)
    {
        var node = source[field];
        if (node is null) return null;
        if (node.GetValueKind() != JsonValueKind.String)
        {
            WrongType(field, node, "a text in quotes");
            return null;
        }

        var text = node.GetValue<string>().Trim();
        if (text.Length <= LayoutLimits.Text) return text.Length == 0 ? null : text;
        Error(field, node, "text-length", $"The text has {text.Length} characters; at most {LayoutLimits.Text} are allowed.");
        return null;
    }

    /// <summary>A required text; null, with an error, when absent, wrong or blank.</summary>
    public string? RequiredText(string field, string what)
    {
        if (!Require(field, what)) return null;
        var text = Text(field);
        if (text is null && source[field]!.GetValueKind() == JsonValueKind.String && source[field]!.GetValue<string>().Trim().Length == 0)
        {
            Error(field, source[field], "required", $"The field {path}{field} is blank; it is required: {what}.");
        }

        return text;
    }

    /// <summary>A required word of an enumeration; null, with an error, when absent or wrong.</summary>
    public T? RequiredWord<T>(string field)
        where T : struct, Enum => Require(field, "one of " + KebabNames.All<T>()) ? Word<T>(field) : null;

    /// <summary>One of an enumeration's words; null when absent or wrong.</summary>
    public T? Word<T>(string field)
        where T : struct, Enum
    {
        var node = source[field];
        if (node is null) return null;
        var value = node.GetValueKind() == JsonValueKind.String ? KebabNames.Parse<T>(node.GetValue<string>()) : null;
        if (value is null) Error(field, node, "word", $"{JsonExcerpt.Of(node)} is not known here; allowed are: {KebabNames.All<T>()}.");
        return value;
    }

    /// <summary>A number in a range; null when absent or wrong.</summary>
    public double? Number(string field, double least, double most) => NumberOf(field, source[field], least, most, "");

    /// <summary>A length in a range given in metres, returned in metres; null when absent or wrong.</summary>
    public double? Length(string field, double leastMetres, double mostMetres) => LengthOf(field, source[field], leastMetres, mostMetres);

    /// <summary>A whole number in a range; null when absent or wrong.</summary>
    public int? Whole(string field, int least, int most)
    {
        if (NumberOf(field, source[field], least, most, "") is not { } number) return null;
        if (Math.Floor(number) == number) return (int)number;
        WrongType(field, source[field]!, "a whole number");
        return null;
    }

    /// <summary>true or false; null when absent or wrong.</summary>
    public bool? Flag(string field)
    {
        var node = source[field];
        if (node is null) return null;
        if (node.GetValueKind() is JsonValueKind.True or JsonValueKind.False) return node.GetValue<bool>();
        WrongType(field, node, "true or false");
        return null;
    }

    /// <summary>A list; empty when absent, wrong or longer than a layout may hold.</summary>
    public IReadOnlyList<JsonNode?> List(string field, int most = LayoutLimits.Elements)
    {
        var node = source[field];
        if (node is null) return [];
        if (node is not JsonArray array)
        {
            WrongType(field, node, "a list in square brackets");
            return [];
        }

        if (array.Count <= most) return [.. array];
        Error(field, null, "list-length", $"The list has {array.Count} entries; at most {most} are allowed.");
        return [];
    }

    /// <summary>A nested object, read with its own path; null when absent or wrong.</summary>
    public FieldReader? Nested(string field) => source[field] is { } node ? NestedOf(field, node) : null;

    /// <summary>An object in a list; null when wrong.</summary>
    public FieldReader? NestedOf(string place, JsonNode? node)
    {
        if (node is JsonObject map) return new FieldReader(map, element, unit, problems, $"{path}{place}.");
        WrongType(place, node, "an object in curly brackets");
        return null;
    }

    /// <summary>A finite number of a node in a range; null, with an error, when it is not one.</summary>
    public double? NumberOf(string place, JsonNode? node, double least, double most, string unitWord)
    {
        if (node is null) return null;
        if (node.GetValueKind() != JsonValueKind.Number)
        {
            WrongType(place, node, "a number");
            return null;
        }

        var value = node.GetValue<double>();
        if (value >= least && value <= most) return value;
        Error(place, node, "number-range", string.Create(CultureInfo.InvariantCulture, $"The number {JsonExcerpt.Of(node)} is out of range; allowed is {least:0.####} to {most:0.####}{unitWord}."));
        return null;
    }

    /// <summary>A length of a node in the layout's unit, returned in metres; null, with an error, when it is not one.</summary>
    public double? LengthOf(string place, JsonNode? node, double leastMetres, double mostMetres) =>
        NumberOf(place, node, unit.FromMetres(leastMetres), unit.FromMetres(mostMetres), " " + unit.Symbol()) * unit.InMetres();

    /// <summary>Reports a value of the wrong type.</summary>
    public void WrongType(string place, JsonNode? node, string wanted) =>
        Error(place, node, "type", $"{path}{place} must be {wanted}; it is {JsonExcerpt.Quoted(node) ?? "null"}.");
}
