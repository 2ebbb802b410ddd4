using System.Globalization;
using System.Security;
using System.Text;

namespace StoreMap.Evaluation;

/// <summary>A small SVG writer for the plots of the report: lines, dots, boxes and text, in pixels.</summary>
internal sealed class SvgPlot
{
    /// <summary>Colours that colour-blind readers tell apart (Okabe and Ito 2008).</summary>
    public static readonly string[] Colours = ["#0072B2", "#D55E00", "#009E73", "#CC79A7"];

    public const string Grey = "#767676";
    public const string Pale = "#dddddd";

    private readonly StringBuilder body = new();
    private readonly double width;
    private readonly double height;
    private readonly string title;

    public SvgPlot(double width, double height, string title)
    {
        (this.width, this.height, this.title) = (width, height, title);
        Box(0, 0, width, height, "#ffffff");
        Text(16, 24, title, "start", 15, bold: true);
    }

    public void Line(double x1, double y1, double x2, double y2, string colour, double stroke = 1, bool dashed = false) => Append(
        $"<line x1=\"{N(x1)}\" y1=\"{N(y1)}\" x2=\"{N(x2)}\" y2=\"{N(y2)}\" stroke=\"{colour}\" stroke-width=\"{N(stroke)}\"{(dashed ? " stroke-dasharray=\"4 3\"" : string.Empty)}/>");

    public void Dot(double x, double y, string colour, double radius = 4, bool hollow = false) => Append(
        $"<circle cx=\"{N(x)}\" cy=\"{N(y)}\" r=\"{N(radius)}\" fill=\"{(hollow ? "#ffffff" : colour)}\" stroke=\"{colour}\" stroke-width=\"1.5\"/>");

    public void Box(double x, double y, double w, double h, string colour) => Append(
        $"<rect x=\"{N(x)}\" y=\"{N(y)}\" width=\"{N(w)}\" height=\"{N(h)}\" fill=\"{colour}\"/>");

    public void Text(double x, double y, string words, string anchor = "start", double size = 12, bool bold = false) => Append(
        $"<text x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\" font-size=\"{N(size)}\"{(bold ? " font-weight=\"bold\"" : string.Empty)} fill=\"#222222\">{SecurityElement.Escape(words)}</text>");

    /// <summary>A key of dots and words in one row.</summary>
    public void Key(double x, double y, IEnumerable<(string Words, string Colour)> entries)
    {
        foreach (var (words, colour) in entries)
        {
            Dot(x, y - 4, colour);
            Text(x + 9, y, words);
            x += 30 + (6.6 * words.Length);
        }
    }

    public override string ToString() =>
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{N(width)}\" height=\"{N(height)}\" viewBox=\"0 0 {N(width)} {N(height)}\" font-family=\"Inter, Arial, sans-serif\">\n"
        + $"<title>{SecurityElement.Escape(title)}</title>\n{body}</svg>\n";

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private void Append(string element) => body.Append(element).Append('\n');
}
