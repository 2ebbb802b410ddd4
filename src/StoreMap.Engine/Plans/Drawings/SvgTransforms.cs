using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>Reads the <c>transform</c> attribute of SVG 1.1, section 7.6.</summary>
internal static partial class SvgTransforms
{
    /// <summary>The map; null when the attribute is malformed.</summary>
    public static Affine? Read(string? text)
    {
        var map = Affine.Identity;
        if (string.IsNullOrWhiteSpace(text)) return map;
        var at = 0;
        foreach (Match match in Step().Matches(text))
        {
            if (!text[at..match.Index].All(c => char.IsWhiteSpace(c) || c == ',')) return null;
            if (Numbers(match.Groups[2].Value) is not { } n || One(match.Groups[1].Value, n) is not { } step) return null;
            map = map.After(step);
            at = match.Index + match.Length;
        }

        return text[at..].All(char.IsWhiteSpace) ? map : null;
    }

    /// <summary>Numbers parted by blanks or commas; null when one is none.</summary>
    public static IReadOnlyList<double>? Numbers(string text)
    {
        List<double> numbers = [];
        foreach (var part in text.Split([' ', ',', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number)) return null;
            numbers.Add(number);
        }

        return numbers;
    }

    private static Affine? One(string name, IReadOnlyList<double> n) => (name, n.Count) switch
    {
        ("matrix", 6) => new Affine(n[0], n[1], n[2], n[3], n[4], n[5]),
        ("translate", 1) => Affine.Move(n[0], 0),
        ("translate", 2) => Affine.Move(n[0], n[1]),
        ("scale", 1) => Affine.Scale(n[0], n[0]),
        ("scale", 2) => Affine.Scale(n[0], n[1]),
        ("rotate", 1) => Affine.Turn(n[0]),
        ("rotate", 3) => Affine.Move(n[1], n[2]).After(Affine.Turn(n[0])).After(Affine.Move(-n[1], -n[2])),
        ("skewX", 1) => new Affine(1, 0, Math.Tan(n[0] * Math.PI / 180), 1, 0, 0),
        ("skewY", 1) => new Affine(1, Math.Tan(n[0] * Math.PI / 180), 0, 1, 0, 0),
        _ => null,
    };

    [GeneratedRegex(@"([A-Za-z]+)\s*\(([^()]*)\)")]
    private static partial Regex Step();
}
