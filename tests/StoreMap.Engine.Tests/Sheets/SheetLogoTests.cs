using System.Text;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class SheetLogoTests
{
    // 1 x 1 dot, transparent.
    private const string Png = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==";

    [Fact]
    public void Read_PlainSvg_StandsInTheTitleBlockOfEverySheet()
    {
        var logo = SheetLogo.Read(Encoding.UTF8.GetBytes("""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><title>x</title><path d="M0 0L40 0L20 20Z" fill="#0072b2"/></svg>"""));
        var sheets = Draw(logo);
        Assert.All(sheets, s => Assert.Contains("<path d=\"M0 0L40 0L20 20Z\" fill=\"#0072b2\">", s.Svg, StringComparison.Ordinal));
        Assert.All(sheets, SheetChecks.AllHold);
    }

    [Fact]
    public void Read_Png_IsCarriedInTheSheet() =>
        Assert.All(Draw(SheetLogo.Read(Convert.FromBase64String(Png))), s =>
        {
            Assert.Contains("data:image/png;base64," + Png, s.Svg, StringComparison.Ordinal);
            SheetChecks.AllHold(s);
        });

    [Theory]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><script>alert(1)</script></svg>", "script")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><rect width=\"1\" height=\"1\" onclick=\"x()\"/></svg>", "onclick")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><image width=\"1\" height=\"1\"/></svg>", "image")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><rect width=\"1\" height=\"1\" fill=\"url(http://x)\"/></svg>", "fill")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><rect width=\"1\" height=\"1\" style=\"fill:red\"/></svg>", "style")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><rect width=\"1\" height=\"1\" fill=\"a&quot; b\"/></svg>", "fill")]
    [InlineData("<!DOCTYPE svg [<!ENTITY a \"aaaa\">]><svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"/>", "SVG")]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\"/>", "viewBox")]
    [InlineData("GIF89a", "PNG")]
    public void Read_AnythingElse_IsRefusedByName(string file, string named) =>
        Assert.Contains(named, Assert.Throws<FormatException>(() => SheetLogo.Read(Encoding.UTF8.GetBytes(file))).Message, StringComparison.Ordinal);

    private static IReadOnlyList<Sheet> Draw(SheetLogo logo)
    {
        var plan = SampleStore.Make(2);
        var visit = new SampleVisit(plan, 2);
        var context = new SheetContext { Logo = logo, Company = "Alder & Finch" };
        return [.. HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, context), .. ReportPages.Cards(plan, visit.Net, visit.Located, null, context)];
    }
}
