using System.Text;
using ImageMagick;
using StoreMap.Plans;
using StoreMap.Raster;
using StoreMap.Sheets;
using UglyToad.PdfPig;

namespace StoreMap.Tests.Raster;

public class SheetRasterTests
{
    private const double PointsPerMillimetre = 72 / 25.4;
    private static readonly PdfInfo Info = new("Quince Street: heat map", "A. Tester", "en", new DateTime(2026, 7, 14, 0, 0, 0, DateTimeKind.Utc));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public void ToPdf_WallOfTenMetresAt1To200_Is50MillimetresOnThePage()
    {
        var plan = new PlanToSheet(200, 0, new PlanPoint(5, 0), new SheetPoint(210, 148.5));
        var sheet = Drawn(svg => svg.Line(plan.Point(new(0, 0)), plan.Point(new(10, 0)), Paint.Line(0.7)));
        using var pdf = PdfDocument.Open(SheetRaster.ToPdf([sheet], Info, cancel: Cancel));
        var page = pdf.GetPage(1);
        Assert.Equal(420, page.Width / PointsPerMillimetre, 0.1);
        Assert.Equal(297, page.Height / PointsPerMillimetre, 0.1);
        var wall = page.Paths.Where(p => p.IsStroked).Select(p => p.GetBoundingRectangle()!.Value).MaxBy(b => b.Width);
        Assert.Equal(50, wall.Width / PointsPerMillimetre, 0.1);
        Assert.Equal(185, wall.Left / PointsPerMillimetre, 0.1);
        Assert.Equal(148.5, wall.Bottom / PointsPerMillimetre, 0.1);
    }

    [Fact]
    public void ToPdf_Text_IsTextInTheCarriedFaces()
    {
        var sheet = Drawn(svg =>
        {
            svg.Text(new(50, 60), "Fresh meat 27A", SheetStyle.Body);
            svg.Text(new(50, 80), "Open first", SheetStyle.BodyBold);
        });
        using var pdf = PdfDocument.Open(SheetRaster.ToPdf([sheet], Info, cancel: Cancel));
        var page = pdf.GetPage(1);
        var words = string.Join(' ', page.GetWords().Select(w => w.Text));
        Assert.Contains("Fresh meat 27A", words, StringComparison.Ordinal);
        Assert.Contains("Open first", words, StringComparison.Ordinal);
        Assert.All(page.Letters, letter => Assert.Contains("Inter", letter.FontName!, StringComparison.Ordinal));
        var first = page.Letters[0];
        Assert.Equal(50, first.StartBaseLine.X / PointsPerMillimetre, 0.1);
        Assert.Equal(297 - 60, first.StartBaseLine.Y / PointsPerMillimetre, 0.1);
    }

    [Fact]
    public void ToPdf_TwoSheets_HasTitleLanguageAndABookmarkEach()
    {
        var bytes = SheetRaster.ToPdf([Drawn(_ => { }, "First"), Drawn(_ => { }, "Größe")], Info, cancel: Cancel);
        using var pdf = PdfDocument.Open(bytes);
        Assert.Equal(2, pdf.NumberOfPages);
        Assert.Equal(Info.Title, pdf.Information.Title);
        Assert.Equal(Info.Author, pdf.Information.Author);
        Assert.True(pdf.TryGetBookmarks(out var bookmarks));
        Assert.Equal(["First", "Größe"], bookmarks.Roots.Select(r => r.Title));
        Assert.Equal([1, 2], bookmarks.Roots.Cast<UglyToad.PdfPig.Outline.DocumentBookmarkNode>().Select(r => r.PageNumber));
        Assert.True(pdf.Structure.Catalog.CatalogDictionary.ContainsKey(UglyToad.PdfPig.Tokens.NameToken.Lang));
    }

    [Fact]
    public void ToPdf_ManySheets_TellsHowFarItIsAndStopsBetweenTwo()
    {
        Sheet[] sheets = [Drawn(_ => { }, "A"), Drawn(_ => { }, "B"), Drawn(_ => { }, "C"), Drawn(_ => { }, "D")];
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var told = new Telling();
        SheetRaster.ToPdf(sheets, Info, told, stop.Token);
        Assert.Equal([0, 0.25, 0.5, 0.75], told.Shares);
        told.Then = share => { if (share == 0.5) stop.Cancel(); };
        told.Shares.Clear();
        Assert.Throws<OperationCanceledException>(() => SheetRaster.ToPdf(sheets, Info, told, stop.Token));
        Assert.Equal([0, 0.25, 0.5], told.Shares);
    }

    [Fact]
    public void ToPdfAndToPng_Twice_GiveTheSameBytes()
    {
        Sheet[] sheets = [Drawn(svg => svg.Text(new(50, 60), "Same", SheetStyle.Title))];
        Assert.Equal(SheetRaster.ToPdf(sheets, Info, cancel: Cancel), SheetRaster.ToPdf(sheets, Info, cancel: Cancel));
        Assert.Equal(SheetRaster.ToPng(sheets[0], 72), SheetRaster.ToPng(sheets[0], 72));
    }

    [Fact]
    public void ToPng_At100DotsPerInch_HasTheSizeAndTheInkInPlace()
    {
        var png = SheetRaster.ToPng(Drawn(svg => svg.Rectangle(new SheetBox(100, 50, 20, 10), Paint.Solid("#0072b2"))), 100);
        using var image = new MagickImage(png);
        Assert.Equal((1654u, 1169u), (image.Width, image.Height));
        using var pixels = image.GetPixels();
        byte[] At(double x, double y) => pixels.GetPixel((int)(x / 25.4 * 100), (int)(y / 25.4 * 100)).ToArray()[..3];
        Assert.Equal([0, 0x72, 0xb2], At(110, 55));
        Assert.Equal([255, 255, 255], At(110, 61));
        Assert.Equal([255, 255, 255], At(99, 55));
    }

    [Fact]
    public void ToPng_NotSvg_IsRefusedByName()
    {
        var broken = new Sheet("broken", "Broken", 420, 297, "<svg");
        Assert.Contains("broken", Assert.Throws<ArgumentException>(() => SheetRaster.ToPng(broken)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => SheetRaster.ToPng(Drawn(_ => { }), 10));
    }

    private static Sheet Drawn(Action<SvgWriter> draw, string title = "Test")
    {
        var frame = new PageFrame(PaperSize.A3, true);
        var svg = new SvgWriter(frame.Width, frame.Height, title, "Test sheet", "en");
        draw(svg);
        return new Sheet("test", title, frame.Width, frame.Height, svg.Finish());
    }

    private sealed class Telling : IProgress<double>
    {
        public List<double> Shares { get; } = [];

        public Action<double> Then { get; set; } = _ => { };

        public void Report(double value)
        {
            Shares.Add(value);
            Then(value);
        }
    }
}
