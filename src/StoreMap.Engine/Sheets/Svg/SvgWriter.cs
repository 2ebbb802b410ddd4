using System.Globalization;
using System.Text;

namespace StoreMap.Sheets;

/// <summary>Writes one SVG 1.1 document in millimetres: groups with ids, classes, titles and descriptions; coordinates to 0.01 mm;
/// LF line ends; no scripts and nothing from outside. Same calls → same bytes.</summary>
internal sealed class SvgWriter
{
    private readonly StringBuilder body = new();
    private readonly StringBuilder definitions = new();
    private readonly HashSet<string> ids = [];
    private readonly HashSet<string> defined = [];
    private readonly string head;
    private readonly List<SheetLink> links = [];
    private int depth = 1;

    /// <summary>Begins a document.</summary>
    /// <param name="width">Page width, millimetres.</param>
    /// <param name="height">Page height, millimetres.</param>
    /// <param name="title">Title for people.</param>
    /// <param name="description">One or two sentences for those who cannot see the page.</param>
    /// <param name="language">Language code, such as <c>en</c>.</param>
    public SvgWriter(double width, double height, string title, string description, string language)
    {
        string w = Numbers.Coordinate(width), h = Numbers.Coordinate(height);
        head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            + $"<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\""
            + $" xml:lang=\"{Escape(language)}\" font-family=\"{Escape(Faces.FamilyList)}\" stroke-linejoin=\"round\" stroke-linecap=\"butt\">\n"
            + $"  <title>{Escape(title)}</title>\n  <desc>{Escape(description)}</desc>\n";
        Rectangle(new SheetBox(0, 0, width, height), Paint.Solid(SheetStyle.Paper));
    }

    /// <summary>Places that lead to other sheets.</summary>
    public IReadOnlyList<SheetLink> Links => links;

    /// <summary>Notes that a place leads to another sheet.</summary>
    public void Link(SheetBox box, string target) => links.Add(new SheetLink(box.X, box.Y, box.Width, box.Height, target));

    /// <summary>A document that is thrown away: drawn on to measure.</summary>
    public static SvgWriter Scratch() => new(1, 1, "", "", "");

    /// <summary>Begins a group.</summary>
    /// <param name="id">Wanted id; made a valid and unique one.</param>
    /// <param name="className">Class, for style and search; null for none.</param>
    /// <param name="title">Title that a pointer shows; null for none.</param>
    /// <param name="description">Description; null for none.</param>
    /// <param name="clip">Id of a clip path made by <see cref="DefineClip"/>; null for none.</param>
    public void Begin(string? id, string? className = null, string? title = null, string? description = null, string? clip = null)
    {
        Indent().Append("<g");
        if (id is not null) body.Append(" id=\"").Append(UniqueId(id)).Append('"');
        if (className is not null) body.Append(" class=\"").Append(className).Append('"');
        if (clip is not null) body.Append(" clip-path=\"url(#").Append(clip).Append(")\"");
        body.Append(">\n");
        depth++;
        if (title is not null) Indent().Append("<title>").Append(Escape(title)).Append("</title>\n");
        if (description is not null) Indent().Append("<desc>").Append(Escape(description)).Append("</desc>\n");
    }

    /// <summary>Ends the innermost group.</summary>
    public void End()
    {
        depth--;
        Indent().Append("</g>\n");
    }

    public void Line(SheetPoint a, SheetPoint b, Paint paint) =>
        Indent().Append("<line x1=\"").Append(C(a.X)).Append("\" y1=\"").Append(C(a.Y)).Append("\" x2=\"").Append(C(b.X))
            .Append("\" y2=\"").Append(C(b.Y)).Append('"').Append(paint.Attributes).Append("/>\n");

    public void Polyline(IEnumerable<SheetPoint> points, Paint paint) => Points("polyline", points, paint);

    public void Polygon(IEnumerable<SheetPoint> points, Paint paint) => Points("polygon", points, paint);

    /// <summary>One path of several rings, filled by the even-odd rule.</summary>
    public void Rings(IEnumerable<IReadOnlyList<SheetPoint>> rings, Paint paint)
    {
        Indent().Append("<path fill-rule=\"evenodd\" d=\"");
        foreach (var ring in rings)
        {
            for (var i = 0; i < ring.Count; i++) body.Append(i == 0 ? 'M' : 'L').Append(C(ring[i].X)).Append(' ').Append(C(ring[i].Y));
            body.Append('Z');
        }

        body.Append('"').Append(paint.Attributes).Append("/>\n");
    }

    public void Rectangle(SheetBox box, Paint paint, double radius = 0)
    {
        Indent().Append("<rect x=\"").Append(C(box.X)).Append("\" y=\"").Append(C(box.Y)).Append("\" width=\"").Append(C(box.Width))
            .Append("\" height=\"").Append(C(box.Height)).Append('"');
        if (radius > 0) body.Append(" rx=\"").Append(C(radius)).Append('"');
        body.Append(paint.Attributes).Append("/>\n");
    }

    public void Circle(SheetPoint centre, double radius, Paint paint) =>
        Indent().Append("<circle cx=\"").Append(C(centre.X)).Append("\" cy=\"").Append(C(centre.Y)).Append("\" r=\"").Append(C(radius))
            .Append('"').Append(paint.Attributes).Append("/>\n");

    /// <summary>Puts checked markup into a box.</summary>
    /// <param name="box">Where.</param>
    /// <param name="factor">Millimetres of one of its units.</param>
    /// <param name="markup">Well-formed elements from the mark's own origin; the caller has checked them.</param>
    public void Embed(SheetBox box, double factor, string markup) =>
        Indent().Append(CultureInfo.InvariantCulture, $"<g class=\"mark\" transform=\"translate({C(box.X)} {C(box.Y)}) scale({factor:0.######})\">{markup}</g>\n");

    /// <summary>Text on a base line.</summary>
    /// <param name="at">The anchor's place on the base line.</param>
    /// <param name="text">The text; nothing is written when it is empty.</param>
    /// <param name="style">How it is set.</param>
    /// <param name="anchor">Which part of the text <paramref name="at"/> is.</param>
    /// <param name="quarterTurns">Quarter turns anticlockwise about <paramref name="at"/>.</param>
    public void Text(SheetPoint at, string text, TextStyle style, TextAnchor anchor = TextAnchor.Start, int quarterTurns = 0)
    {
        if (text.Length == 0) return;
        Indent().Append("<text x=\"").Append(C(at.X)).Append("\" y=\"").Append(C(at.Y)).Append("\" font-size=\"").Append(C(style.FontSize)).Append('"');
        if (style.Bold) body.Append(" font-weight=\"600\"");
        if (anchor != TextAnchor.Start) body.Append(anchor == TextAnchor.Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
        if (quarterTurns % 4 != 0)
        {
            body.Append(" transform=\"rotate(").Append(C(-90 * quarterTurns)).Append(' ').Append(C(at.X)).Append(' ').Append(C(at.Y)).Append(")\"");
        }

        body.Append(" fill=\"").Append(style.Colour).Append("\">").Append(Escape(text)).Append("</text>\n");
    }

    /// <summary>Defines a hatch of parallel lines, once per id.</summary>
    /// <param name="id">Id of the pattern.</param>
    /// <param name="pitch">Distance between lines, millimetres.</param>
    /// <param name="width">Line width.</param>
    /// <param name="colour">Line colour.</param>
    /// <param name="degrees">Direction of the lines, degrees anticlockwise from the horizontal.</param>
    /// <returns>The reference to give as a fill.</returns>
    public string Hatch(string id, double pitch, double width, string colour, double degrees)
    {
        if (defined.Add(id))
        {
            ids.Add(id);
            var p = C(pitch);
            definitions.Append($"    <pattern id=\"{id}\" patternUnits=\"userSpaceOnUse\" width=\"{p}\" height=\"{p}\" patternTransform=\"rotate({C(-degrees)})\">")
                .Append($"<rect x=\"0\" y=\"0\" width=\"{p}\" height=\"{C(width)}\" fill=\"{colour}\"/></pattern>\n");
        }

        return $"url(#{id})";
    }

    /// <summary>Defines a clip path of polygons, once per id.</summary>
    public string DefineClip(string id, IEnumerable<IReadOnlyList<SheetPoint>> rings)
    {
        if (!defined.Add(id)) return id;
        ids.Add(id);
        definitions.Append($"    <clipPath id=\"{id}\">");
        foreach (var ring in rings)
        {
            definitions.Append("<polygon points=\"").AppendJoin(' ', ring.Select(p => C(p.X) + "," + C(p.Y))).Append("\"/>");
        }

        definitions.Append("</clipPath>\n");
        return id;
    }

    /// <summary>The whole document.</summary>
    public string Finish()
    {
        var defs = definitions.Length == 0 ? "" : "  <defs>\n" + definitions + "  </defs>\n";
        return head + defs + body + "</svg>\n";
    }

    private static string C(double millimetres) => Numbers.Coordinate(millimetres);

    private static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length + 8);
        foreach (var rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                '\t' or '\n' or '\r' => escaped.Append(' '),
                < 0x20 or 0xFFFE or 0xFFFF => escaped.Append('�'),
                _ => escaped.Append(rune.ToString()),
            };
        }

        return escaped.ToString();
    }

    private StringBuilder Indent() => body.Append(' ', depth * 2);

    private void Points(string element, IEnumerable<SheetPoint> points, Paint paint)
    {
        Indent().Append('<').Append(element).Append(" points=\"");
        var first = true;
        foreach (var p in points)
        {
            if (!first) body.Append(' ');
            first = false;
            body.Append(C(p.X)).Append(',').Append(C(p.Y));
        }

        body.Append('"').Append(paint.Attributes).Append("/>\n");
    }

    private string UniqueId(string wanted)
    {
        var name = new string([.. wanted.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-')]);
        if (name.Length == 0 || !char.IsAsciiLetter(name[0])) name = "id-" + name;
        var unique = name;
        for (var n = 2; !ids.Add(unique); n++) unique = name + "-" + n.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return unique;
    }
}
