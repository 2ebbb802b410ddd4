using System.Diagnostics;
using System.Globalization;
using ImageMagick;
using StoreMap.Raster;
using StoreMap.Sheets;

namespace StoreMap.Tests.Raster;

/// <summary>Our PNG beside a browser's picture of the same SVG: headless Chromium at 96 dots per inch, the carried faces handed to it, its
/// shaping of text turned off as ours is. Both smooth edges in their own way, so pixels are compared after a blur of one pixel; what stays
/// is text that a browser sets on whole pixels. Skipped where no Chromium is installed.</summary>
public class ChromiumTests
{
    private const double Dpi = 96;

    // Measured on the committed sheets: means of 0.0037 to 0.0064, parts of 0.00004 to 0.00016.
    private const double MostMean = 0.01;
    private const double MostFar = 0.0005;

    private static readonly string? Browser = new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.FirstOrDefault(File.Exists);

    public static TheoryData<string> Renders => [.. (Folder() is { } folder ? Directory.GetFiles(folder, "*.svg") : []).Select(Path.GetFileName).OfType<string>().Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Renders))]
    public void ToPng_OfACommittedSheet_LooksAsInTheBrowser(string file)
    {
        Assert.SkipWhen(Browser is null, "No Chromium is installed.");
        var svg = File.ReadAllText(Path.Combine(Folder()!, file));
        var (width, height) = (Millimetres(svg, "width"), Millimetres(svg, "height"));
        var sheet = new Sheet(file, file, width, height, svg);
        using var ours = new MagickImage(SheetRaster.ToPng(sheet, Dpi));
        using var theirs = new MagickImage(Screenshot(sheet, (int)ours.Width, (int)ours.Height));
        Assert.Equal((ours.Width, ours.Height), (theirs.Width, theirs.Height));
        var (mean, far) = Apart(ours, theirs);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}: mean difference {mean:0.00000}, pixels over a quarter apart {far:0.00000}"));
        Assert.True(mean < MostMean, $"{file}: mean difference {mean}");
        Assert.True(far < MostFar, $"{file}: {far} of the pixels are over a quarter apart");
    }

    /// <summary>Mean difference of the blurred grey pictures as a part of white, and the part of pixels over a quarter of white apart.</summary>
    private static (double Mean, double Far) Apart(MagickImage ours, MagickImage theirs)
    {
        foreach (var image in new[] { ours, theirs })
        {
            image.ColorSpace = ColorSpace.Gray;
            image.Blur(0, 1);
        }

        byte[] a = ours.ToByteArray(MagickFormat.Gray), b = theirs.ToByteArray(MagickFormat.Gray);
        var differences = a.Zip(b, (x, y) => Math.Abs(x - y)).ToList();
        return (differences.Average() / 255, differences.Count(d => d > 64) / (double)differences.Count);
    }

    /// <summary>The comparison must notice a missing label: the same sheet without its texts is told apart.</summary>
    [Fact]
    public void Compare_SheetWithoutItsTexts_IsToldApart()
    {
        Assert.SkipWhen(Browser is null || Folder() is null, "No Chromium is installed.");
        var file = Directory.GetFiles(Folder()!, "*.svg").Order(StringComparer.Ordinal).First();
        var svg = File.ReadAllText(file);
        var sheet = new Sheet("a", "a", Millimetres(svg, "width"), Millimetres(svg, "height"), svg);
        var bare = sheet with { Svg = System.Text.RegularExpressions.Regex.Replace(svg, "<text .*?</text>", "") };
        using var ours = new MagickImage(SheetRaster.ToPng(bare, Dpi));
        using var theirs = new MagickImage(Screenshot(sheet, (int)ours.Width, (int)ours.Height));
        Assert.True(Apart(ours, theirs).Far > 10 * MostFar);
    }

    private static string? Folder()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var renders = Path.Combine(at.FullName, "renders");
            if (File.Exists(Path.Combine(at.FullName, "StoreMap.sln")) && Directory.Exists(renders)) return renders;
        }

        return null;
    }

    private static double Millimetres(string svg, string name)
    {
        var match = System.Text.RegularExpressions.Regex.Match(svg, $" {name}=\"([0-9.]+)mm\"");
        return double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture);
    }

    private static byte[] Screenshot(Sheet sheet, int width, int height)
    {
        var folder = Directory.CreateTempSubdirectory("storemap-");
        try
        {
            var page = Path.Combine(folder.FullName, "page.html");
            var picture = Path.Combine(folder.FullName, "page.png");
            var face = Faces.FamilyList.Split(',')[0].Trim('\'', '"', ' ');
            string Face(ReadOnlyMemory<byte> file, int weight) => $"@font-face{{font-family:'{face}';font-weight:{weight};src:url(data:font/ttf;base64,{Convert.ToBase64String(file.Span)})}}";
            File.WriteAllText(page, $$"""
                <!doctype html><meta charset="utf-8"><style>{{Face(Faces.RegularFile, 400)}}{{Face(Faces.SemiBoldFile, 600)}}
                html,body{margin:0;background:#fff}svg{display:block;width:{{width}}px;height:{{height}}px}
                text{font-kerning:none;font-variant-ligatures:none;font-feature-settings:"calt" 0,"kern" 0,"liga" 0;text-rendering:geometricPrecision}</style>
                {{sheet.Svg[sheet.Svg.IndexOf("<svg", StringComparison.Ordinal)..]}}
                """);
            var start = new ProcessStartInfo(Browser!)
            {
                ArgumentList =
                {
                    "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--force-device-scale-factor=1", "--disable-lcd-text", "--font-render-hinting=none",
                    $"--user-data-dir={folder.FullName}/profile", string.Create(CultureInfo.InvariantCulture, $"--window-size={width},{height}"), $"--screenshot={picture}", new Uri(page).AbsoluteUri,
                },
                RedirectStandardError = true, RedirectStandardOutput = true,
            };
            using var process = Process.Start(start)!;
            _ = process.StandardOutput.ReadToEndAsync();
            _ = process.StandardError.ReadToEndAsync();
            if (!process.WaitForExit(TimeSpan.FromSeconds(60)))
            {
                process.Kill(entireProcessTree: true);
                Assert.Fail("The browser took more than a minute.");
            }

            return File.ReadAllBytes(picture);
        }
        finally
        {
            try
            {
                folder.Delete(recursive: true);
            }
            catch (IOException)
            {
                // The browser's last process may still be writing its profile; the system clears its temporary folder.
            }
        }
    }
}
