using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Unknown fields are kept in silence, except those that look like a slip of a known one: <c>secions</c>, <c>lineup</c>.</summary>
internal static class KnownFields
{
    private static readonly string[] Header =
        ["format", "id", "name", "timeZone", "units", "revision", "validFrom", "north", "schematic", "outline", .. LayoutLists.All];

    private static readonly Dictionary<string, string[]> ByList = new(StringComparer.Ordinal)
    {
        [LayoutLists.Entrances] = ["id", "at"],
        [LayoutLists.Rooms] = ["id", "name", "kind", "outline", "openings", "aerosol", "work", "entry", "height"],
        [LayoutLists.Areas] = ["id", "name", "outline", "entry"],
        [LayoutLists.Obstacles] = ["id", "kind", "outline"],
        [LayoutLists.Fixtures] =
        [
            "id", "tag", "name", "kind", "lineUp", "outline", "front", "back", "sections", "panels", "doors", "doorsRetrofit", "circuit",
            "valveEnd", "drains", "product", "installed", "opening", "coils", "refrigerant", "charge", "chargeUnit",
        ],
        [LayoutLists.Equipment] = ["id", "kind", "at", "level", "system"],
        [LayoutLists.Pits] = ["id", "kind", "outline", "fixtures"],
        [LayoutLists.Drops] = ["id", "at", "fixtures"],
        [LayoutLists.Pipes] = ["id", "path", "level", "circuit"],
        [LayoutLists.Circuits] = ["id", "system", "shutoffs", "defrost"],
        [LayoutLists.Systems] = ["id", "type", "refrigerant", "charge", "chargeUnit"],
    };

    /// <summary>The fields known in a list's elements; the layout's own for null.</summary>
    public static IReadOnlyList<string> Of(string? list) => list is null ? Header : ByList[list];

    /// <summary>Warns of unknown fields that are one or two letters off a known one that is absent.</summary>
    public static void WarnOfSlips(JsonObject source, FieldReader reader, string? list)
    {
        var known = Of(list);
        foreach (var (name, value) in source)
        {
            if (known.Contains(name)) continue;
            var meant = known.FirstOrDefault(k => source[k] is null && Near(name, k));
            if (meant is not null) reader.Warn(name.Length > LayoutLimits.Text ? name[..LayoutLimits.Text] : name, value, "field-slip", $"The field {name} is not known and not used; did you mean {meant}?");
        }
    }

    // One slip is a wrong, missing or added letter; short names allow one, longer ones two, upper and lower case none at all.
    private static bool Near(string a, string b) =>
        Math.Abs(a.Length - b.Length) <= 2 && Distance(a.ToLowerInvariant(), b.ToLowerInvariant()) <= (b.Length < 6 ? b.Length < 4 ? 0 : 1 : 2);

    // Edit distance by rows (Wagner and Fischer 1974).
    private static int Distance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var above = row[j];
                row[j] = Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[b.Length];
    }
}
