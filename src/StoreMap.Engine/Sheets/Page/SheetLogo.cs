using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace StoreMap.Sheets;

/// <summary>A company's mark, checked so that it can stand in a sheet: a PNG, or an SVG of plain shapes without script, style, text or
/// anything from outside.</summary>
public sealed class SheetLogo
{
    private const int MostBytes = 300_000;
    private const int MostElements = 2000;
    private const string Namespace = "http://www.w3.org/2000/svg";

    private static readonly byte[] PngMark = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
    private static readonly string[] Shapes = ["g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon"];

    private static readonly string[] Attributes =
    [
        "d", "x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "x1", "y1", "x2", "y2", "points", "transform", "fill", "fill-rule", "fill-opacity",
        "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-opacity", "stroke-dasharray", "opacity",
    ];

    private readonly double width;
    private readonly double height;
    private readonly string content;

    private SheetLogo(double width, double height, string content)
    {
        this.width = width;
        this.height = height;
        this.content = content;
    }

    /// <summary>Reads a mark.</summary>
    /// <param name="bytes">The file, PNG or SVG, at most 300 kB.</param>
    /// <exception cref="FormatException">It is neither, too large, or holds what may not stand in a sheet; the message says what.</exception>
    public static SheetLogo Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length > MostBytes) throw new FormatException($"The mark has {bytes.Length} bytes; at most {MostBytes} are taken.");
        return bytes.StartsWith(PngMark) ? Png(bytes) : Svg(bytes);
    }

    /// <summary>Draws the mark into a box, its proportions kept, at the right end.</summary>
    /// <returns>The width taken.</returns>
    internal double Draw(SvgWriter svg, SheetBox box)
    {
        var factor = Math.Min(box.Width / width, box.Height / height);
        double w = width * factor, h = height * factor;
        svg.Embed(new SheetBox(box.Right - w, box.Y + ((box.Height - h) / 2), w, h), factor, content);
        return w;
    }

    private static SheetLogo Png(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 33 || !bytes[12..16].SequenceEqual("IHDR"u8)) throw new FormatException("The PNG has no header.");
        int width = BinaryPrimitives.ReadInt32BigEndian(bytes[16..]), height = BinaryPrimitives.ReadInt32BigEndian(bytes[20..]);
        if (width is < 1 or > 4000 || height is < 1 or > 4000) throw new FormatException("The PNG must be 1 to 4000 dots wide and high.");
        var data = Convert.ToBase64String(bytes);
        return new SheetLogo(width, height, string.Create(
            CultureInfo.InvariantCulture, $"<image width=\"{width}\" height=\"{height}\" xlink:href=\"data:image/png;base64,{data}\"/>"));
    }

    private static SheetLogo Svg(ReadOnlySpan<byte> bytes)
    {
        XElement root;
        try
        {
            using var reader = XmlReader.Create(
                new MemoryStream(bytes.ToArray()), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true });
            root = XDocument.Load(reader).Root!;
        }
        catch (XmlException e)
        {
            throw new FormatException($"The mark is neither a PNG nor a well-formed SVG: {e.Message}", e);
        }

        if (root.Name.LocalName != "svg" || root.Name.NamespaceName != Namespace) throw new FormatException("The mark is no SVG document.");
        if (root.Descendants().Count() > MostElements) throw new FormatException($"The SVG has more than {MostElements} elements.");
        var (x, y, w, h) = ViewBox(root);
        var content = new StringBuilder();
        foreach (var child in root.Elements()) Append(content, child);
        return new SheetLogo(w, h, string.Create(CultureInfo.InvariantCulture, $"<g transform=\"translate({-x:0.####} {-y:0.####})\">{content}</g>"));
    }

    private static (double X, double Y, double Width, double Height) ViewBox(XElement root)
    {
        var text = root.Attribute("viewBox")?.Value ?? $"0 0 {root.Attribute("width")?.Value} {root.Attribute("height")?.Value}";
        var numbers = text.Split([' ', ',', 'p', 'x', 'm'], StringSplitOptions.RemoveEmptyEntries)
            .Select(n => double.TryParse(n, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) && double.IsFinite(v) ? v : double.NaN).ToArray();
        if (numbers.Length != 4 || numbers.Any(double.IsNaN) || numbers[2] is <= 0 or > 1e5 || numbers[3] is <= 0 or > 1e5) throw new FormatException("The SVG needs a viewBox, or a width and height in pixels or millimetres.");
        return (numbers[0], numbers[1], numbers[2], numbers[3]);
    }

    /// <summary>Copies what is allowed; titles and descriptions are left out, anything else is refused by name.</summary>
    private static void Append(StringBuilder to, XElement element)
    {
        var name = element.Name.LocalName;
        if (name is "title" or "desc" or "metadata" || element.Name.NamespaceName != Namespace) return;
        if (!Shapes.Contains(name)) throw new FormatException($"The SVG holds a '{name}'; only plain shapes are taken ({string.Join(", ", Shapes)}).");
        to.Append('<').Append(name);
        foreach (var attribute in element.Attributes())
        {
            if (attribute.IsNamespaceDeclaration || attribute.Name.NamespaceName.Length > 0 || attribute.Name.LocalName is "id" or "class") continue;
            var key = attribute.Name.LocalName;
            if (!Attributes.Contains(key)) throw new FormatException($"The SVG's '{name}' has '{key}'; give colours and widths as plain attributes.");
            if (attribute.Value.AsSpan().IndexOfAnyExcept(Plain) >= 0 || attribute.Value.Contains("url", StringComparison.OrdinalIgnoreCase))
                throw new FormatException($"The SVG's '{key}' refers to something else; only plain values are taken.");
            to.Append(' ').Append(key).Append("=\"").Append(attribute.Value).Append('"');
        }

        to.Append('>');
        foreach (var child in element.Elements()) Append(to, child);
        to.Append("</").Append(name).Append('>');
    }

    private static readonly System.Buffers.SearchValues<char> Plain =
        System.Buffers.SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 ,.#%()+-\t\r\n");
}
