using System.Globalization;
using System.Xml.Linq;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>What must hold of every sheet, read back from its SVG.</summary>
internal static class SheetChecks
{
    private const double Tolerance = 0.02;

    /// <summary>A text of a sheet with the box of its letters.</summary>
    internal sealed record DrawnText(string Text, SheetBox Box, double FontSize, bool Bold, string Colour);

    public static void AllHold(Sheet sheet)
    {
        var root = Parse(sheet);
        NothingFromOutside(root);
        var texts = TextsOf(root);
        Assert.NotEmpty(texts);
        Assert.All(texts, t => Assert.True(t.FontSize * Faces.Regular.CapHeight >= 2.5 - 0.01, $"{sheet.Name}: '{t.Text}' is {t.FontSize} mm"));
        InsideThePage(sheet, texts);
        InsideTheFrame(sheet, root);
        NoTwoOverlap(sheet, texts);
        NoLeadersCross(sheet, root);
        NoLeaderReadsAsAMinus(root);
        Grounds.AllTextsContrast(sheet, root);
    }

    public static XElement Parse(Sheet sheet)
    {
        Assert.DoesNotContain('\r', sheet.Svg);
        var root = XDocument.Parse(sheet.Svg).Root!;
        Assert.Equal("1.1", root.Attribute("version")!.Value);
        Assert.Equal(Numbers.Coordinate(sheet.WidthMillimetres) + "mm", root.Attribute("width")!.Value);
        Assert.Equal(["title", "desc"], root.Elements().Take(2).Select(e => e.Name.LocalName));
        var ids = root.Descendants().Select(e => e.Attribute("id")?.Value).OfType<string>().ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        return root;
    }

    public static IReadOnlyList<DrawnText> TextsOf(XElement root) =>
        [.. root.Descendants().Where(e => e.Name.LocalName == "text").Select(TextOf)];

    /// <summary>Texts in the group with an id, or under it.</summary>
    public static IReadOnlyList<DrawnText> TextsIn(XElement root, string id) =>
        [.. root.Descendants().Where(e => e.Attribute("id")?.Value == id).SelectMany(g => TextsOf(g))];

    private static void NothingFromOutside(XElement root)
    {
        string[] allowed = ["svg", "title", "desc", "defs", "pattern", "clipPath", "g", "path", "polygon", "polyline", "line", "rect", "circle", "text", "image"];
        Assert.All(root.DescendantsAndSelf(), e => Assert.Contains(e.Name.LocalName, allowed));
        Assert.All(root.DescendantsAndSelf().Attributes(), a =>
        {
            Assert.False(a.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || (a.Name.LocalName == "href" && !a.Value.StartsWith("data:image/png;base64,", StringComparison.Ordinal)), a.ToString());
            if (a.Value.Contains("url(", StringComparison.Ordinal)) Assert.StartsWith("url(#", a.Value, StringComparison.Ordinal);
        });
    }

    private static void InsideThePage(Sheet sheet, IReadOnlyList<DrawnText> texts)
    {
        var page = new SheetBox(0, 0, sheet.WidthMillimetres, sheet.HeightMillimetres).Inset(5);
        Assert.All(texts, t => Assert.True(page.Contains(t.Box), $"{sheet.Name}: '{t.Text}' leaves the page"));
    }

    /// <summary>All text but the grid references stands inside the frame, the heavy rectangle of the drawing space.</summary>
    private static void InsideTheFrame(Sheet sheet, XElement root)
    {
        var frame = root.Descendants().Single(e => e.Attribute("id")?.Value == "frame");
        var rectangles = frame.Elements().Where(e => e.Name.LocalName == "rect").Select(e => new SheetBox(Number(e, "x"), Number(e, "y"), Number(e, "width"), Number(e, "height")));
        var inner = rectangles.MinBy(r => r.Width)!.Inset(-0.01);
        var texts = root.Descendants().Where(e => e.Name.LocalName == "text" && e.Parent != frame).Select(TextOf);
        Assert.All(texts, t => Assert.True(inner.Contains(t.Box), $"{sheet.Name}: '{t.Text}' {t.Box} leaves the frame"));
    }

    private static void NoLeadersCross(Sheet sheet, XElement root)
    {
        var leaders = root.Descendants().Where(e => e.Attribute("class")?.Value == "leaders").Select(g => g.Elements().SelectMany(SegmentsOf).ToList());
        Assert.All(leaders, lines =>
        {
            for (var i = 0; i < lines.Count; i++)
            {
                for (var j = i + 1; j < lines.Count; j++) Assert.False(LabelSpace.Cross(lines[i].A, lines[i].B, lines[j].A, lines[j].B), $"{sheet.Name}: leaders {lines[i]} and {lines[j]} cross");
            }
        });
    }

    /// <summary>No stroke of a leader ends level with the letters beside a number: it would be read as a minus.</summary>
    private static void NoLeaderReadsAsAMinus(XElement root)
    {
        // The last point of a leader is on the reading's dot, which no minus has.
        var ends = root.Descendants().Where(e => e.Attribute("class")?.Value == "leaders").SelectMany(g => g.Elements()).SelectMany(SegmentsOf)
            .Where(l => Math.Abs(l.A.Y - l.B.Y) < 0.5 * Math.Abs(l.A.X - l.B.X)).Select(l => l.A).ToList();
        foreach (var text in TextsIn(root, "labels-readings"))
        {
            var box = text.Box;
            Assert.DoesNotContain(ends, p => p.Y > box.Y && p.Y < box.Bottom && ((p.X <= box.X && p.X > box.X - 0.9) || (p.X >= box.Right && p.X < box.Right + 0.9)));
        }
    }

    private static IEnumerable<(SheetPoint A, SheetPoint B)> SegmentsOf(XElement polyline)
    {
        Assert.Equal("polyline", polyline.Name.LocalName);
        var points = polyline.Attribute("points")!.Value.Split(' ').Select(p => p.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).Select(p => new SheetPoint(p[0], p[1])).ToList();
        return points.Zip(points.Skip(1));
    }

    private static void NoTwoOverlap(Sheet sheet, IReadOnlyList<DrawnText> texts)
    {
        var sorted = texts.OrderBy(t => t.Box.X).ToList();
        for (var i = 0; i < sorted.Count; i++)
        {
            for (var j = i + 1; j < sorted.Count && sorted[j].Box.X < sorted[i].Box.Right; j++)
            {
                Assert.False(
                    sorted[i].Box.Inset(Tolerance).Overlaps(sorted[j].Box.Inset(Tolerance)),
                    $"{sheet.Name}: '{sorted[i].Text}' {sorted[i].Box} and '{sorted[j].Text}' {sorted[j].Box} overlap");
            }
        }
    }

    internal static DrawnText TextOf(XElement e)
    {
        double x = Number(e, "x"), y = Number(e, "y"), size = Number(e, "font-size");
        var bold = e.Attribute("font-weight")?.Value == "600";
        var face = bold ? Faces.SemiBold : Faces.Regular;
        var style = new TextStyle(size * face.CapHeight, bold);
        var width = style.WidthOf(e.Value);
        var left = e.Attribute("text-anchor")?.Value switch { "middle" => x - (width / 2), "end" => x - width, _ => x };
        var cap = style.HeightMillimetres;
        var box = new SheetBox(left, y - cap, width, cap * 1.22);
        if (e.Attribute("transform") is { } turn)
        {
            var degrees = double.Parse(turn.Value.Split('(', ' ')[1], CultureInfo.InvariantCulture);
            box = Turned(box, new SheetPoint(x, y), degrees);
        }

        return new DrawnText(e.Value, box, size, bold, e.Attribute("fill")!.Value);
    }

    private static SheetBox Turned(SheetBox box, SheetPoint about, double degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        SheetPoint Turn(double x, double y) => new(about.X + ((x - about.X) * cos) - ((y - about.Y) * sin), about.Y + ((x - about.X) * sin) + ((y - about.Y) * cos));
        return SheetBox.Around([Turn(box.X, box.Y), Turn(box.Right, box.Y), Turn(box.Right, box.Bottom), Turn(box.X, box.Bottom)]);
    }

    internal static double Number(XElement e, string name) => double.Parse(e.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
