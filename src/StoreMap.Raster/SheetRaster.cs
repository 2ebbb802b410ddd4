using System.Text;
using SkiaSharp;
using StoreMap.Sheets;
using Svg.Skia;

namespace StoreMap.Raster;

/// <summary>Pictures and documents from sheets. Text is set in the faces the engine carries, so no font need be installed.
/// The same sheets give the same bytes on one machine.</summary>
public static class SheetRaster
{
    private const double MillimetresPerInch = 25.4;
    private const double PointsPerInch = 72;

    /// <summary>Most pixels of one picture: A1 at 300 dots per inch with room to spare.</summary>
    private const long MostPixels = 120_000_000;

    /// <summary>Draws a sheet as a PNG on white paper.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="dpi">Dots per inch, in [30, 600].</param>
    /// <returns>The PNG file.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The resolution is out of range, or the picture would be too large for it.</exception>
    /// <exception cref="ArgumentException">The sheet is no SVG document.</exception>
    public static byte[] ToPng(Sheet sheet, double dpi = 200)
    {
        if (dpi is not (>= 30 and <= 600)) throw new ArgumentOutOfRangeException(nameof(dpi), dpi, "The resolution should be in range [30, 600] dots per inch.");
        var width = (int)Math.Round(sheet.WidthMillimetres / MillimetresPerInch * dpi);
        var height = (int)Math.Round(sheet.HeightMillimetres / MillimetresPerInch * dpi);
        if ((long)width * height > MostPixels) throw new ArgumentOutOfRangeException(nameof(dpi), dpi, $"At this resolution the sheet has {width} x {height} dots; choose a lower one.");
        using var svg = Load(sheet);
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            Fill(canvas, svg, width, height);
        }

        using var pixels = bitmap.PeekPixels()!;
        using var data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 6))!;
        return data.ToArray();
    }

    /// <summary>Binds sheets into one PDF: vector drawing, real text, embedded faces, a bookmark per sheet, the sheets' links.</summary>
    /// <param name="sheets">One page each, in order; at least one.</param>
    /// <param name="info">Title, author, language and date: nothing is taken from the machine.</param>
    /// <param name="progress">Told the share done, in [0, 1].</param>
    /// <param name="cancel">Stops the work between two sheets.</param>
    /// <returns>The PDF file.</returns>
    /// <exception cref="ArgumentException">There is no sheet, or one is no SVG document.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static byte[] ToPdf(IReadOnlyList<Sheet> sheets, PdfInfo info, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (sheets.Count == 0) throw new ArgumentException("A document needs at least one sheet.", nameof(sheets));
        using var stream = new MemoryStream();
        var metadata = new SKDocumentPdfMetadata(300)
        {
            Title = info.Title.Length > 0 ? info.Title : sheets[0].Title, Author = info.Author, Subject = info.Subject, Creator = "StoreMap", Producer = "StoreMap",
            Creation = info.Date, Modified = info.Date,
        };
        using (var document = SKDocument.CreatePdf(stream, metadata))
        {
            foreach (var (i, sheet) in sheets.Index())
            {
                cancel.ThrowIfCancellationRequested();
                progress?.Report((double)i / sheets.Count);
                var width = (float)Points(sheet.WidthMillimetres);
                var height = (float)Points(sheet.HeightMillimetres);
                using var svg = Load(sheet);
                using var canvas = document.BeginPage(width, height);
                Fill(canvas, svg, width, height);
                canvas.ResetMatrix();
                AddLinks(canvas, sheet, sheets);
                document.EndPage();
            }

            document.Close();
        }

        return PdfCatalog.Complete(stream.ToArray(), info, [.. sheets.Select(s => (s.Title, Points(s.WidthMillimetres), Points(s.HeightMillimetres)))]);
    }

    /// <summary>Every sheet is a destination by its name; links to sheets that are not bound in are left out.</summary>
    private static void AddLinks(SKCanvas canvas, Sheet sheet, IReadOnlyList<Sheet> sheets)
    {
        using var name = SKData.CreateCopy(Encoding.UTF8.GetBytes(sheet.Name + "\0"));
        canvas.DrawNamedDestinationAnnotation(new SKPoint(0, 0), name);
        foreach (var link in sheet.Links.Where(l => sheets.Any(s => s.Name == l.Target)))
        {
            using var target = SKData.CreateCopy(Encoding.UTF8.GetBytes(link.Target + "\0"));
            canvas.DrawLinkDestinationAnnotation(
                SKRect.Create((float)Points(link.X), (float)Points(link.Y), (float)Points(link.Width), (float)Points(link.Height)), target);
        }
    }

    private static double Points(double millimetres) => millimetres / MillimetresPerInch * PointsPerInch;

    private static SKSvg Load(Sheet sheet)
    {
        var svg = new SKSvg();
        var providers = svg.Settings.TypefaceProviders ?? (svg.Settings.TypefaceProviders = []);
        providers.Clear();
        providers.Add(new CarriedTypefaces());
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(sheet.Svg));
        try
        {
            if (svg.Load(stream) is not null) return svg;
        }
        catch (System.Xml.XmlException e)
        {
            svg.Dispose();
            throw new ArgumentException($"The sheet '{sheet.Name}' is no SVG document: {e.Message}", nameof(sheet), e);
        }

        svg.Dispose();
        throw new ArgumentException($"The sheet '{sheet.Name}' is no SVG document.", nameof(sheet));
    }

    private static void Fill(SKCanvas canvas, SKSvg svg, float width, float height)
    {
        var bounds = svg.Picture!.CullRect;
        canvas.Scale(width / bounds.Width, height / bounds.Height);
        canvas.Translate(-bounds.Left, -bounds.Top);
        canvas.DrawPicture(svg.Picture);
    }
}
