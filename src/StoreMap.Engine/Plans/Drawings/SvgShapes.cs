using System.Globalization;
using System.Xml.Linq;

namespace StoreMap.Plans;

/// <summary>The course of one basic shape of SVG 1.1, chapters 8 and 9.</summary>
internal static class SvgShapes
{
    /// <summary>Names that have a course.</summary>
    public static bool Knows(string name) => name is "rect" or "line" or "polyline" or "polygon" or "circle" or "ellipse" or "path";

    /// <summary>Its course in its own coordinates, one for each part of a path; null when it has none or its numbers are unsound.</summary>
    public static IReadOnlyList<(bool Closed, IReadOnlyList<PlanPoint> Points)>? Course(XElement shape, double sagitta)
    {
        switch (shape.Name.LocalName)
        {
            case "rect":
                if (Number(shape, "width", null) is not (> 0 and var w) || Number(shape, "height", null) is not (> 0 and var h)) return null;
                return Number(shape, "x", 0) is { } x && Number(shape, "y", 0) is { } y ? [(true, [new(x, y), new(x + w, y), new(x + w, y + h), new(x, y + h)])] : null;
            case "line":
                return Number(shape, "x1", 0) is { } x1 && Number(shape, "y1", 0) is { } y1 && Number(shape, "x2", 0) is { } x2 && Number(shape, "y2", 0) is { } y2
                    ? [(false, [new(x1, y1), new(x2, y2)])] : null;
            case "polyline" or "polygon":
                return Points((string?)shape.Attribute("points")) is { Count: > 1 } points ? [(shape.Name.LocalName == "polygon", points)] : null;
            case "circle" when Number(shape, "r", null) is > 0 and var r:
                return Round(shape, r, r, sagitta);
            case "ellipse" when Number(shape, "rx", null) is > 0 and var rx && Number(shape, "ry", null) is > 0 and var ry:
                return Round(shape, rx, ry, sagitta);
            case "path":
                return SvgPath.Read((string?)shape.Attribute("d") ?? "", sagitta);
            default:
                return null;
        }
    }

    private static IReadOnlyList<(bool, IReadOnlyList<PlanPoint>)>? Round(XElement shape, double rx, double ry, double sagitta) =>
        Number(shape, "cx", 0) is { } x && Number(shape, "cy", 0) is { } y
            ? [(true, [.. Curves.Arc(new(x, y), new(rx, 0), new(0, ry), 0, 2 * Math.PI, sagitta).SkipLast(1)])]
            : null;

    private static List<PlanPoint>? Points(string? text) =>
        SvgTransforms.Numbers(text ?? "") is { } n && n.Count % 2 == 0 ? [.. n.Chunk(2).Select(p => new PlanPoint(p[0], p[1]))] : null;

    // Lengths in user units; "px" is the same. Other units depend on the page and are refused.
    private static double? Number(XElement shape, string name, double? otherwise)
    {
        var text = ((string?)shape.Attribute(name))?.Trim();
        if (text is null) return otherwise;
        if (text.EndsWith("px", StringComparison.Ordinal)) text = text[..^2];
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
    }
}
