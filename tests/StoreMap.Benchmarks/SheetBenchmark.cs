using System.Diagnostics;
using System.Globalization;
using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Raster;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Benchmarks;

/// <summary>The demo store's sheets: SVG of the A3 heat map from a ready field, its PNG at 200 dots per inch, and a report of twenty pages
/// and more as PDF; beside them librsvg's converter on the same SVG, where it is installed.</summary>
internal static class SheetBenchmark
{
    private const double Dpi = 200;

    public static int Run()
    {
        var folder = Path.Combine("layouts", "tern-hollow");
        using var layout = File.OpenRead(Path.Combine(folder, "tern-hollow.layout.json"));
        var plan = LayoutDocument.Read(layout, "tern-hollow").Plan;
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        var file = Directory.GetFiles(folder, "*.readings.csv").Order(StringComparer.Ordinal).Last();
        using var readings = File.OpenRead(file);
        var net = NetSurveyBuilder.Build(plan, SurveyReader.Read(readings, file, plan, points, new SurveyReadOptions()).Survey);
        var field = GasFieldBuilder.Build(plan, net, new FieldSettings());
        var located = LeakLocator.Locate(plan, net, [], new LocateSettings());
        var context = new SheetContext { PlanPaper = PaperSize.A3, TextPaper = PaperSize.A4 };
        Console.WriteLine("what                                      first s   best s   size");
        IReadOnlyList<Sheet> map = [];
        Time("A3 heat map, SVG", 20, () => map = HeatMapSheet.Draw(plan, net, field, located, context), () => map[0].Svg.Length);
        byte[] png = [];
        Time("its PNG, 200 dpi", 5, () => png = SheetRaster.ToPng(map[0], Dpi), () => png.Length);
        Librsvg(map[0]);
        List<Sheet> pack = [];
        byte[] pdf = [];
        Time("report drawn and bound, 20 pages or more", 3, () =>
        {
            pack = [.. ReportPages.Manager(plan, net, located, null, context), .. HeatMapSheet.Draw(plan, net, field, located, context), .. LeakZoneSheet.Draw(plan, net, located, context),
                .. ReportPages.Cards(plan, net, located, null, context), .. ReportPages.Record(plan, net, located, null, context)];
            // The maps again until there are twenty pages: more drawing than a real report has.
            while (pack.Count < 20) pack.AddRange(HeatMapSheet.Draw(plan, net, field, located, context).Take(1));
            pdf = SheetRaster.ToPdf(pack, new PdfInfo("Report", "", "en", default));
        }, () => pdf.Length);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"pages of the report: {pack.Count}"));
        return 0;
    }

    private static void Time(string what, int times, Action work, Func<int> size)
    {
        var seconds = new List<double>();
        for (var i = 0; i < times; i++)
        {
            var clock = Stopwatch.StartNew();
            work();
            seconds.Add(clock.Elapsed.TotalSeconds);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-42} {seconds[0],6:0.000} {seconds.Min(),8:0.000} {size() / 1000.0,7:0} kB"));
    }

    private static void Librsvg(Sheet sheet)
    {
        const string Converter = "/usr/bin/rsvg-convert";
        if (!File.Exists(Converter))
        {
            Console.WriteLine("rsvg-convert is not installed; no side by side.");
            return;
        }

        var folder = Directory.CreateTempSubdirectory("storemap-");
        string svg = Path.Combine(folder.FullName, "a.svg"), png = Path.Combine(folder.FullName, "a.png");
        File.WriteAllText(svg, sheet.Svg);
        var dpi = Dpi.ToString(CultureInfo.InvariantCulture);
        Time("the same by rsvg-convert, process and all", 5, () =>
        {
            using var process = Process.Start(Converter, ["--dpi-x", dpi, "--dpi-y", dpi, "-o", png, svg]);
            process.WaitForExit();
        }, () => (int)new FileInfo(png).Length);
        folder.Delete(recursive: true);
    }
}
