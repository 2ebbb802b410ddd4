using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class FlowColumnsTests
{
    private const double LineHeight = 4;

    /// <summary>A reader who turns the page must not have to turn back to see what the text belongs to.</summary>
    [Fact]
    public void Fill_TextUnderAHeadingRunsOn_RepeatsTheHeadingInEachColumnAndOnTheNextPage()
    {
        var items = Enumerable.Range(0, 14).Select(i => NoteItems.Line($"line {i}")).Prepend(NoteItems.Heading("Cautions")).ToList();
        var svg = SvgWriter.Scratch();
        var rest = FlowColumns.Fill(svg, items, [Column(0), Column(60)]);
        Assert.NotEmpty(rest);
        var next = SvgWriter.Scratch();
        Assert.Empty(FlowColumns.Fill(next, rest, [Column(0), Column(60), Column(120), Column(180)]));
        Assert.Equal(["Cautions", "… Cautions"], Headings(svg));
        Assert.All(Headings(next), h => Assert.Equal("… Cautions", h));
        Assert.Equal(14, new[] { svg, next }.Sum(s => Texts(s).Count(t => t.StartsWith("line", StringComparison.Ordinal))));
    }

    [Fact]
    public void Fill_TextAfterARule_IsUnderNoHeading()
    {
        var svg = SvgWriter.Scratch();
        List<FlowItem> items = [NoteItems.Heading("Legend"), .. Lines(3), NoteItems.Rule(), .. Lines(4)];
        FlowColumns.Fill(svg, items, [Column(0), Column(60), Column(120)]);
        Assert.Equal(["Legend"], Headings(svg));
    }

    /// <summary>Where nothing but the repeated heading fits, the text is set all the same rather than pages turned for ever.</summary>
    [Fact]
    public void Fill_ColumnTooLowForAHeadingAndALine_ComesToAnEnd()
    {
        IReadOnlyList<FlowItem> rest = [NoteItems.Heading("Legend"), .. Lines(3)];
        for (var page = 0; rest.Count > 0; page++)
        {
            Assert.True(page < 10);
            rest = FlowColumns.Fill(SvgWriter.Scratch(), rest, [new SheetBox(0, 0, 50, 6)]);
        }
    }

    /// <summary>A heading never stands alone at the foot of a sheet, in a low column under the plan.</summary>
    [Fact]
    public void Fill_LowLastColumn_LeavesAHeadingWithoutItsTextToTheNextPage()
    {
        var svg = SvgWriter.Scratch();
        List<FlowItem> items = [.. Lines(4), NoteItems.Rule(), NoteItems.Heading("The readings"), .. Lines(2)];
        var rest = FlowColumns.Fill(svg, items, [Column(0), new SheetBox(60, 0, 50, 8)]);
        Assert.Empty(Headings(svg));
        Assert.Equal(3, rest.Count);
    }

    private static IEnumerable<FlowItem> Lines(int count) => Enumerable.Range(0, count).Select(i => NoteItems.Line($"line {i}"));

    private static SheetBox Column(double x) => new(x, 0, 50, 6 * LineHeight);

    private static List<string> Headings(SvgWriter svg) => [.. Texts(svg).Where(t => !t.StartsWith("line", StringComparison.Ordinal))];

    private static List<string> Texts(SvgWriter svg) =>
        [.. System.Xml.Linq.XDocument.Parse(svg.Finish()).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value)];
}
