using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap;

/// <summary>Lengths as people type them: <c>12' 6"</c>, <c>12 ft 6 in</c>, <c>12.5</c>, <c>3,2 m</c>, <c>150 cm</c>.</summary>
public static partial class LengthEntry
{
    /// <summary>Reads a length.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">The unit of a number without one, and of the answer.</param>
    /// <returns>The length in that unit, below zero too; null when it is none.</returns>
    public static double? Parse(string text, LengthUnit unit)
    {
        var match = Form().Match(text.Trim().Replace(',', '.').Replace('′', '\'').Replace('″', '"'));
        if (!match.Success) return null;
        double Of(string group) => match.Groups[group].Success ? double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture) : 0;
        var sign = match.Groups["minus"].Success ? -1 : 1;
        double metres;
        if (match.Groups["feet"].Success || match.Groups["inches"].Success)
        {
            metres = (Of("feet") * LengthUnits.MetresPerFoot) + (Of("inches") * LengthUnits.MetresPerFoot / 12);
        }
        else
        {
            metres = Of("number") * (match.Groups["unit"].Value.ToLowerInvariant() switch { "m" => 1, "cm" => 0.01, "mm" => 0.001, _ => unit.InMetres() });
        }

        return sign * Math.Round(unit.FromMetres(metres), 6);
    }

    [GeneratedRegex("""\A(?<minus>-)?(?:(?<feet>\d{1,6}(?:\.\d{1,6})?)\s*(?:'|ft|feet)\s*(?:(?<inches>\d{1,6}(?:\.\d{1,6})?)\s*(?:"|''|in)?)?|(?<inches>\d{1,6}(?:\.\d{1,6})?)\s*(?:"|''|in)|(?<number>\d{1,9}(?:\.\d{1,9})?)\s*(?<unit>m|cm|mm)?)\z""", RegexOptions.IgnoreCase)]
    private static partial Regex Form();
}
