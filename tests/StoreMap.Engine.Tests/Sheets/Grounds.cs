using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>What lies under each text of a sheet: the filled shapes drawn before it, laid over one another. Hatches are left out: their
/// lines are thin, and where text stands on one it has a ground of its own.</summary>
internal static partial class Grounds
{
    private const double Least = 4.5;

    /// <summary>Contrast of every text with its ground at its middle (WCAG 2.2, 1.4.3).</summary>
    public static void AllTextsContrast(Sheet sheet, XElement root)
    {
        var shapes = new List<(SheetBox Box, List<List<SheetPoint>> Rings, Colour Fill, double Opacity)>();
        foreach (var e in root.Descendants())
        {
            if (e.Ancestors().Any(a => a.Name.LocalName is "defs" or "pattern" || a.Attribute("class")?.Value == "mark")) continue;
            if (e.Name.LocalName == "text")
            {
                var text = SheetChecks.TextOf(e);
                var ground = At(shapes, text.Box.Middle);
                var contrast = Colour.Contrast(Colour.Parse(text.Colour), ground);
                Assert.True(contrast >= Least, $"{sheet.Name}: '{text.Text}' {text.Colour} on {ground.Hex} has {contrast:0.00}:1");
            }
            else if (e.Attribute("fill")?.Value is ['#', ..] fill && Rings(e) is { Count: > 0 } rings)
            {
                var opacity = e.Attribute("fill-opacity") is { } o ? double.Parse(o.Value, CultureInfo.InvariantCulture) : 1;
                shapes.Add((SheetBox.Around(rings.SelectMany(r => r)), rings, Colour.Parse(fill), opacity));
            }
        }
    }

    private static Colour At(List<(SheetBox Box, List<List<SheetPoint>> Rings, Colour Fill, double Opacity)> shapes, SheetPoint p)
    {
        double r = 255, g = 255, b = 255;
        foreach (var (box, rings, fill, opacity) in shapes)
        {
            if (!box.Contains(p) || !Inside(rings, p)) continue;
            r += (fill.R - r) * opacity;
            g += (fill.G - g) * opacity;
            b += (fill.B - b) * opacity;
        }

        return new Colour((byte)Math.Round(r), (byte)Math.Round(g), (byte)Math.Round(b));
    }

    private static List<List<SheetPoint>> Rings(XElement e)
    {
        switch (e.Name.LocalName)
        {
            case "rect":
                double x = SheetChecks.Number(e, "x"), y = SheetChecks.Number(e, "y"), w = SheetChecks.Number(e, "width"), h = SheetChecks.Number(e, "height");
                return [[new(x, y), new(x + w, y), new(x + w, y + h), new(x, y + h)]];
            case "polygon":
                return [Points(e.Attribute("points")!.Value)];
            case "path":
                return [.. e.Attribute("d")!.Value.Split('Z', StringSplitOptions.RemoveEmptyEntries).Select(Points)];
            default:
                return [];
        }
    }

    private static List<SheetPoint> Points(string text)
    {
        var numbers = Number().Matches(text).Select(m => double.Parse(m.Value, CultureInfo.InvariantCulture)).ToList();
        return [.. Enumerable.Range(0, numbers.Count / 2).Select(i => new SheetPoint(numbers[2 * i], numbers[(2 * i) + 1]))];
    }

    /// <summary>Even-odd rule.</summary>
    private static bool Inside(List<List<SheetPoint>> rings, SheetPoint p)
    {
        var inside = false;
        foreach (var ring in rings)
        {
            for (var i = 0; i < ring.Count; i++)
            {
                SheetPoint a = ring[i], b = ring[(i + 1) % ring.Count];
                if (a.Y > p.Y != b.Y > p.Y && p.X < a.X + ((b.X - a.X) * (p.Y - a.Y) / (b.Y - a.Y))) inside = !inside;
            }
        }

        return inside;
    }

    [GeneratedRegex(@"-?[0-9]+(\.[0-9]+)?")]
    private static partial Regex Number();
}
