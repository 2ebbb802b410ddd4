using System.Globalization;
using System.Xml;
using System.Xml.Linq;

namespace StoreMap.Plans;

/// <summary>Reads the shapes and texts of an SVG 1.1 plan. Nothing in it runs, and nothing outside it is fetched: scripts, pictures,
/// references and foreign content are passed over, and a document type declaration is refused.</summary>
internal static class SvgReader
{
    private const string Svg = "http://www.w3.org/2000/svg";

    // A plan nests groups a few deep.
    private const int MostDepth = 64;

    /// <summary>Reads a drawing.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <param name="unit">The layout's unit.</param>
    /// <param name="perUnit">How many of that unit one user unit of the picture is.</param>
    /// <param name="problems">Takes what was left out.</param>
    /// <exception cref="RefusedInputException">It is no SVG, or has a document type declaration.</exception>
    public static Drawing Read(Stream stream, string? fileName, LengthUnit unit, double perUnit, ProblemList problems)
    {
        var root = Load(stream, fileName);
        List<DrawnShape> shapes = [];
        List<DrawnLabel> labels = [];
        var metres = unit.InMetres() * perUnit;

        // A picture's y runs down.
        Visit(root, Affine.Scale(metres, -metres), "", 0);
        return new Drawing(unit, shapes, labels);

        void Visit(XElement element, Affine map, string layer, int depth)
        {
            foreach (var child in element.Elements().Where(e => e.Name.NamespaceName == Svg))
            {
                var name = child.Name.LocalName;
                if (depth > MostDepth || Hidden(child)) continue;
                if (SvgTransforms.Read((string?)child.Attribute("transform")) is not { } own)
                {
                    problems.Warn(Where(child), "transform", (string?)child.Attribute("transform"), "svg-transform", "The transform can't be read; the element is left out.");
                    continue;
                }

                var placed = map.After(own);
                if (name is "g" or "svg" or "a")
                {
                    Visit(child, placed, name == "g" && Name(child) is { } group ? group : layer, depth + 1);
                }
                else if (name == "text")
                {
                    Label(child, placed, layer);
                }
                else if (SvgShapes.Course(child, DxfReader.UsualSagitta / Math.Max(placed.Stretch, 1e-9)) is { } courses)
                {
                    foreach (var (closed, points) in courses) Shape(child, closed, [.. points.Select(placed.Of)], layer);
                }
                else if (SvgShapes.Knows(name))
                {
                    problems.Warn(Where(child), null, null, "svg-shape", "Its numbers can't be read; the shape is left out.");
                }
            }
        }

        void Shape(XElement element, bool closed, List<PlanPoint> points, string layer)
        {
            if (points.Count < 2) return;
            if (points.Exists(p => !(Math.Abs(p.X) <= DrawingLimits.Farthest && Math.Abs(p.Y) <= DrawingLimits.Farthest)))
            {
                problems.Warn(Where(element), null, null, "svg-far", "It lies more than 100 km from the origin and is left out; is --units right?");
                return;
            }

            if (shapes.Count >= DrawingLimits.MostShapes) throw DxfGroups.Refused(fileName, "svg-too-much", "The picture has more than 50,000 shapes, more than a store's plan has.");
            shapes.Add(new DrawnShape(element.Name.LocalName, layer, Name(element) is { } own ? $"model/{own}" : "model", closed && points.Count > 2, points));
        }

        void Label(XElement element, Affine map, string layer)
        {
            double X(string name) => SvgTransforms.Numbers((string?)element.Attribute(name) ?? "0") is [var first, ..] ? first : 0;
            var text = string.Join('\n', element.Value.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
            if (text.Length > 0 && labels.Count < DrawingLimits.MostShapes) labels.Add(new DrawnLabel(text, layer, map.Of(new PlanPoint(X("x"), X("y")))));
        }
    }

    private static XElement Load(Stream stream, string? fileName)
    {
        try
        {
            var settings = new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = InputText.MostBytes };
            using var reader = XmlReader.Create(stream, settings);
            var root = XElement.Load(reader, LoadOptions.SetLineInfo);
            return root.Name.NamespaceName == Svg && root.Name.LocalName == "svg"
                ? root
                : throw DxfGroups.Refused(fileName, "svg-root", "The file is XML but no SVG picture. Is it the right file?");
        }
        catch (XmlException e) when (e.Message.Contains("DTD", StringComparison.Ordinal))
        {
            throw DxfGroups.Refused(fileName, "svg-dtd", "The SVG has a document type declaration, which can reach other files or swell without end. Save it as plain SVG without one.");
        }
        catch (XmlException e)
        {
            throw DxfGroups.Refused(fileName, "svg-xml", string.Create(CultureInfo.InvariantCulture, $"The file is no well-formed XML: it breaks off at line {e.LineNumber}. Save it again as SVG."));
        }
    }

    private static string? Name(XElement element) =>
        ((string?)element.Attribute("id") ?? (string?)element.Attribute("class"))?.Trim() is { Length: > 0 } name ? name : null;

    private static bool Hidden(XElement element) =>
        (string?)element.Attribute("display") == "none" || ((string?)element.Attribute("style"))?.Replace(" ", "", StringComparison.Ordinal).Contains("display:none", StringComparison.Ordinal) == true;

    private static string Where(XElement element) =>
        Name(element) ?? string.Create(CultureInfo.InvariantCulture, $"line {((IXmlLineInfo)element).LineNumber}");
}
