using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using NodaTime;

namespace StoreMap.Plans;

/// <summary>Reads a layout's own fields: format, id, name, units, revision, dates, north.</summary>
internal static partial class HeaderReader
{
    /// <summary>Name of the format.</summary>
    public const string FormatName = "storemap-layout";

    /// <summary>Major version read and written.</summary>
    public const int Major = 1;

    /// <summary>Checks the format, which decides whether the rest can be read at all.</summary>
    /// <returns>True when the file is a layout of a version this program reads.</returns>
    public static bool CheckFormat(JsonObject root, ProblemList problems) => CheckFormat(root, problems, FormatName, Major, "layout");

    /// <summary>Checks the format of any StoreMap file.</summary>
    /// <param name="root">The file.</param>
    /// <param name="problems">Gets the problem.</param>
    /// <param name="format">Name of the format wanted, such as <c>storemap-survey</c>.</param>
    /// <param name="newest">Major version read and written.</param>
    /// <param name="what">What the file is, for the message.</param>
    /// <returns>True when the file is one of a version this program reads.</returns>
    public static bool CheckFormat(JsonObject root, ProblemList problems, string format, int newest, string what)
    {
        var node = root["format"];
        var written = JsonExcerpt.Of(node);
        var match = node?.GetValueKind() == JsonValueKind.String ? Format().Match(node.GetValue<string>()) : Match.Empty;
        var wanted = $"{format}/{newest}";
        var message = node is null ? $"The field format is missing; a {what} begins with \"format\": \"{wanted}\"."
            : !match.Success ? $"The format {written} is not known; a {what} has \"format\": \"{wanted}\"."
            : match.Groups[1].Value != format ? $"The file is a {match.Groups[1].Value} file, not a {what}; a {what} has \"format\": \"{wanted}\"."
            : !int.TryParse(match.Groups[2].Value, CultureInfo.InvariantCulture, out var major) || major > newest
                ? $"The {what} has format {written}, made by a newer StoreMap; this one reads {wanted}. Update StoreMap, or save the {what} in the older format."
            : major < 1 ? $"There never was a format {written}; a {what} has \"format\": \"{wanted}\"."
            : null;
        if (message is null) return true;
        problems.Error(null, "format", written, node is null ? "required" : "format", message);
        return false;
    }

    /// <summary>The unit of the layout; null, with an error, when absent or unknown.</summary>
    public static LengthUnit? Units(JsonObject root, ProblemList problems)
    {
        var node = root["units"];
        var unit = node?.GetValueKind() == JsonValueKind.String ? LengthUnits.FromSymbol(node.GetValue<string>()) : null;
        if (unit is null)
        {
            problems.Error(null, "units", JsonExcerpt.Of(node), node is null ? "required" : "word",
                $"{(node is null ? "The field units is missing" : $"The unit {JsonExcerpt.Of(node)} is not known")}; allowed are m, ft, in, mm, one for every length in the file.");
        }

        return unit;
    }

    /// <summary>A plan with the layout's own fields and its outline; null when one of the required ones is missing or wrong.</summary>
    public static Plan? Read(FieldReader header)
    {
        var id = Id(header);
        var name = header.RequiredText("name", "the store's name");
        var outline = header.Ring("outline");
        var plan = new Plan
        {
            Id = id ?? "", Name = name ?? "", Units = header.Unit, Outline = outline ?? [], TimeZone = Zone(header) ?? "UTC",
            Revision = header.Whole("revision", 1, 1_000_000) ?? 1, ValidFrom = Date(header), NorthDegrees = North(header),
            Schematic = header.Flag("schematic") ?? false,
        };
        return outline is null ? null : plan;
    }

    private static string? Id(FieldReader header)
    {
        if (!header.Require("id", "1 to 64 of a–z 0–9 -")) return null;
        if (header["id"]!.GetValueKind() == JsonValueKind.String && LayoutId().IsMatch(header["id"]!.GetValue<string>())) return header.Text("id");
        header.Error("id", header["id"], "id-pattern", $"The layout's id {JsonExcerpt.Of(header["id"])} is not allowed; it is 1 to 64 of a–z 0–9 - in quotes.");
        return null;
    }

    private static string? Zone(FieldReader header)
    {
        if (header.Text("timeZone") is not { } zone) return null;
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is not null) return zone;
        header.Error("timeZone", header["timeZone"], "time-zone", $"The time zone {zone} is not known; give an IANA name such as America/Chicago or Europe/Berlin.");
        return null;
    }

    private static DateOnly? Date(FieldReader header)
    {
        if (header.Text("validFrom") is not { } text) return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)) return date;
        header.Error("validFrom", header["validFrom"], "date", $"{text} is no date; write year-month-day, such as 2026-03-01.");
        return null;
    }

    private static double? North(FieldReader header) =>
        header.Number("north", -360, 360) is { } bearing ? ((bearing % 360) + 360) % 360 : null;

    [GeneratedRegex(@"\A(storemap-[a-z]+)/([0-9]{1,9})\z")]
    private static partial Regex Format();

    [GeneratedRegex(@"\A[a-z0-9-]{1,64}\z")]
    private static partial Regex LayoutId();
}
