using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>The elements of a layout's lists with their ids: ids are checked here once, so that references can be checked anywhere.</summary>
internal sealed partial class LayoutElements
{
    private readonly Dictionary<string, IReadOnlyList<FieldReader>> lists = [];
    private readonly Dictionary<string, HashSet<string>> ids = [];

    /// <summary>Walks the lists of a layout.</summary>
    /// <param name="header">The layout's own fields.</param>
    public LayoutElements(FieldReader header)
    {
        var seen = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var list in LayoutLists.All)
        {
            var readers = new List<FieldReader>();
            ids[list] = new HashSet<string>(StringComparer.Ordinal);
            var nodes = header.List(list);
            for (var i = 0; i < nodes.Count; i++)
            {
                if (Element(header, list, i, nodes[i], seen) is { } reader) readers.Add(reader);
            }

            lists[list] = readers;
        }
    }

    /// <summary>True when a text may be an element's id.</summary>
    public static bool IsId(string text) => ElementId().IsMatch(text);

    /// <summary>One reader per element of a list, in file order.</summary>
    public IReadOnlyList<FieldReader> this[string list] => lists[list];

    /// <summary>Reads an optional reference to an element.</summary>
    /// <returns>The id; null when absent or, with an error, unknown.</returns>
    public string? Reference(FieldReader reader, string field, string list) =>
        reader[field] is { } node ? ReferenceOf(reader, field, node, list) : null;

    /// <summary>Reads a reference held by a node; null, with an error, when it is none.</summary>
    public string? ReferenceOf(FieldReader reader, string place, JsonNode? node, string list)
    {
        if (node?.GetValueKind() != JsonValueKind.String)
        {
            reader.WrongType(place, node, "an id in quotes");
            return null;
        }

        var id = node.GetValue<string>();
        if (ids[list].Contains(id)) return id;
        reader.Error(place, node, "reference", $"There is no {id} among the {list}; add it there or name one that exists.");
        return null;
    }

    /// <summary>Reads an optional list of references; unknown ones are reported and left out.</summary>
    public IReadOnlyList<string> References(FieldReader reader, string field, string list)
    {
        var nodes = reader.List(field, LayoutLimits.References);
        List<string> found = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (ReferenceOf(reader, $"{field}[{i}]", nodes[i], list) is { } id && !found.Contains(id)) found.Add(id);
        }

        return found;
    }

    private FieldReader? Element(FieldReader header, string list, int index, JsonNode? node, Dictionary<string, string> seen)
    {
        var place = $"{list}[{index}]";
        if (node is not JsonObject map)
        {
            header.WrongType(place, node, "an object in curly brackets");
            return null;
        }

        var unnamed = new FieldReader(map, place, header.Unit, header.Problems);
        var reader = Named(header, list, place, map, unnamed, seen);
        KnownFields.WarnOfSlips(map, reader, list);
        return reader;
    }

    private FieldReader Named(FieldReader header, string list, string place, JsonObject map, FieldReader unnamed, Dictionary<string, string> seen)
    {
        if (!unnamed.Require("id", "1 to 32 of A–Z a–z 0–9 . _ -")) return unnamed;
        if (map["id"]!.GetValueKind() != JsonValueKind.String || !IsId(map["id"]!.GetValue<string>()))
        {
            unnamed.Error("id", map["id"], "id-pattern", $"The id {JsonExcerpt.Of(map["id"])} is not allowed; an id is 1 to 32 of A–Z a–z 0–9 . _ - in quotes.");
            return unnamed;
        }

        var id = map["id"]!.GetValue<string>();
        ids[list].Add(id);
        var reader = new FieldReader(map, id, header.Unit, header.Problems);
        if (!seen.TryAdd(id, place)) reader.Error("id", map["id"], "id-unique", $"The id {id} is used by {seen[id]} and again by {place}; an id may stand once in the file.");
        return reader;
    }

    [GeneratedRegex(@"\A[A-Za-z0-9._-]{1,32}\z")]
    private static partial Regex ElementId();
}
