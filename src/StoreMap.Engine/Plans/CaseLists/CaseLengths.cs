using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>Reads lengths as people write them: <c>12-12-8</c>, <c>12+12+8</c>, <c>12' 12' 8'</c>, <c>3 x 12</c>, <c>12'6 1/2"-8'</c>, a walk-in's <c>10x14</c>.</summary>
internal static partial class CaseLengths
{
    private const int MostRepeats = 30;

    // Line-ups run to about six sections.
    private const int UsualSections = 6;

    /// <summary>Section lengths of a case.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="decimalComma">True when a comma inside a number is its decimal mark; else it parts numbers.</param>
    /// <returns>Lengths in the list's unit; null when the cell is none.</returns>
    public static IReadOnlyList<double>? Sections(string cell, bool decimalComma)
    {
        List<double> lengths = [];
        foreach (var part in Parts(cell, decimalComma))
        {
            var repeat = Repeat().Match(part);
            var count = repeat.Success ? int.Parse(repeat.Groups[1].Value, CultureInfo.InvariantCulture) : 1;
            if (Number(repeat.Success ? repeat.Groups[2].Value : part) is not { } length || count is < 1 or > MostRepeats) return null;
            lengths.AddRange(Enumerable.Repeat(length, count));
        }

        return lengths.Count > 0 ? lengths : null;
    }

    /// <summary>Width and depth of a walk-in, <c>10x14</c> or <c>10-14</c>; null when the cell is none.</summary>
    public static IReadOnlyList<double>? WidthAndDepth(string cell, bool decimalComma)
    {
        var numbers = Parts(cell, decimalComma).SelectMany(p => p.Split('x')).Select(Number).ToList();
        return numbers.Count == 2 && numbers.TrueForAll(n => n is not null) ? [numbers[0]!.Value, numbers[1]!.Value] : null;
    }

    /// <summary>True when a cell without a kind reads like a walk-in's two sides: two numbers with an x between them, the first of them
    /// too large to be a usual count of sections.</summary>
    public static bool LooksLikeRoom(string cell) =>
        RoomSides().Match(Plain(cell)) is { Success: true } sides && Number(sides.Groups[1].Value.Replace(',', '.')) > UsualSections;

    /// <summary>True when a spreadsheet has made a date of the lengths, such as 2012-12-08 or 12-Aug.</summary>
    public static bool LooksLikeDate(string cell) => Date().IsMatch(cell.Trim());

    private static IEnumerable<string> Parts(string cell, bool decimalComma)
    {
        var plain = Plain(cell);
        plain = decimalComma ? plain.Replace(',', '.') : plain.Replace(',', '-');

        // A sign with nothing beside it stays as an empty part, which is no number: half a length must not pass for a whole list.
        return plain.Split(['-', '+', '/', ';'], StringSplitOptions.TrimEntries)
            .SelectMany(p => p.Length == 0 ? [p] : p.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    // Feet and inches joined, one kind of dash and times sign, unit marks off, no space round the times sign.
    private static string Plain(string cell) =>
        Around().Replace(Marks().Replace(FeetAndInches().Replace(cell.Trim(), Joined).ToLowerInvariant().Replace('–', '-').Replace('—', '-').Replace('×', 'x').Replace('@', 'x'), ""), "x");

    private static string Joined(Match match) =>
        double.Parse(match.Groups["inches"].Value, CultureInfo.InvariantCulture) < 12 && LengthEntry.Parse(match.Value, LengthUnit.Foot) is { } feet
            ? feet.ToString("0.####", CultureInfo.InvariantCulture) : match.Value;

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    [GeneratedRegex(@"\A(\d{1,2})x(.+)\z")]
    private static partial Regex Repeat();

    [GeneratedRegex(@"\A(\d+(?:[.,]\d+)?)x\d+(?:[.,]\d+)?\z")]
    private static partial Regex RoomSides();

    [GeneratedRegex(@"\d+['’′](?:\s*(?<inches>\d{1,2}(?:\.\d+)?)(?:(?:\s+|-)\d{1,3}/\d{1,3})?\s*(?:[""”″]|'')|(?<inches>\d{1,2}(?:\.\d+)?))(?![\d'’′])")]
    private static partial Regex FeetAndInches();

    [GeneratedRegex(@"\s*x\s*")]
    private static partial Regex Around();

    [GeneratedRegex(@"['’′]|(?<=\d)\s*(ft|feet|mm|m|in)\b")]
    private static partial Regex Marks();

    [GeneratedRegex(@"\A(\d{4}-\d{2}-\d{2}|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}|\d{1,2}-[A-Za-z]{3}(-\d{2,4})?)( .*)?\z")]
    private static partial Regex Date();
}
