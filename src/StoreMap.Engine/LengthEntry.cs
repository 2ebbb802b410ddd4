using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap;

/// <summary>Lengths as people type them: <c>12' 6"</c>, <c>12 ft 6 in</c>, <c>67' 3 1/2"</c>, <c>12' 6-1/2"</c>, <c>12'-6"</c>, <c>12.5</c>, <c>3,2 m</c>,
/// <c>150 cm</c>; and the lengths of a case's sections, such as <c>12-12-8</c>.</summary>
public static partial class LengthEntry
{
    // Feet and inches with their marks, as in 12'-6", and whole inches and a fraction may have a dash between them; any other dash, as in 60-6, parts two
    // sections.
    private const string Inches = """(?:(?:(?<inches>\d{1,6})(?:\s+|\s*-\s*))?(?<top>\d{1,3})/(?<bottom>\d{1,3})|(?<inches>\d{1,6}(?:\.\d{1,6})?))""";
    private const string Length = $$"""(?:(?<feet>\d{1,6}(?:\.\d{1,6})?)\s*(?:'|ft|feet)(?:\s*-\s*{{Inches}}\s*(?:"|''|in)|\s*{{Inches}}\s*(?:"|''|in)?)?|{{Inches}}\s*(?:"|''|in)|(?<number>\d{1,9}(?:\.\d{1,9})?)\s*(?<unit>m|cm|mm)?)""";

    /// <summary>Reads a length.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">The unit of a number without one, and of the answer.</param>
    /// <returns>The length in that unit, below zero too; null when it is none.</returns>
    public static double? Parse(string text, LengthUnit unit)
    {
        var match = One().Match(Plain(text));
        if (!match.Success) return null;
        double Of(string group) => match.Groups[group].Success ? double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture) : 0;
        var sign = match.Groups["minus"].Success ? -1 : 1;
        var isFraction = match.Groups["top"].Success;
        if (isFraction && Of("top") >= Of("bottom")) return null;
        double metres;
        if (match.Groups["feet"].Success || match.Groups["inches"].Success || isFraction)
        {
            metres = (Of("feet") + ((Of("inches") + (isFraction ? Of("top") / Of("bottom") : 0)) / 12)) * LengthUnits.MetresPerFoot;
        }
        else
        {
            metres = Of("number") * (match.Groups["unit"].Value.ToLowerInvariant() switch { "m" => 1, "cm" => 0.01, "mm" => 0.001, _ => unit.InMetres() });
        }

        return sign * Math.Round(unit.FromMetres(metres), 6);
    }

    /// <summary>Parts the lengths of sections, which have a dash or a plus sign between them.</summary>
    /// <param name="text">What was typed, such as <c>12-12-8</c> or <c>12' 6-1/2"-8'</c>.</param>
    /// <returns>Each length as typed; null when anything else stands there, such as a sign with no length beside it.</returns>
    public static IReadOnlyList<string>? Sections(string text) =>
        Several().Match(Plain(text)) is { Success: true } match ? [.. match.Groups["part"].Captures.Select(c => c.Value.Trim())] : null;

    private static string Plain(string text) => text.Trim().Replace(',', '.').Replace('’', '\'').Replace('′', '\'').Replace('”', '"').Replace('″', '"').Replace('–', '-');

    [GeneratedRegex($@"\A(?<minus>-)?{Length}\z", RegexOptions.IgnoreCase)]
    private static partial Regex One();

    [GeneratedRegex($@"\A(?<part>{Length})(?:\s*[-+]\s*(?<part>{Length}))*\z", RegexOptions.IgnoreCase)]
    private static partial Regex Several();
}
