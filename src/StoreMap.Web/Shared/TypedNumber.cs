using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap.Web.Shared;

/// <summary>Numbers as people type them: with a decimal point or a decimal comma.</summary>
internal static partial class TypedNumber
{
    /// <summary>A text with a point for its decimal comma. Three figures after a comma may be thousands, and stay as they are.</summary>
    public static string WithPoint(string text) => DecimalComma().Replace(text.Trim(), ".");

    /// <summary>The number; null when it is none.</summary>
    public static double? Parse(string text) =>
        double.TryParse(WithPoint(text), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;

    [GeneratedRegex(@"(?<=^[<>]?[0-9]*),(?=([0-9]{1,2}|[0-9]{4,})$)")]
    private static partial Regex DecimalComma();
}
