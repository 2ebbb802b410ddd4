namespace StoreMap.Sheets;

/// <summary>A badge with a head line in semi-bold and details below; may lead to another sheet.</summary>
internal sealed class CalloutItem(string letter, IReadOnlyList<string> lines, string? leadsTo = null) : FlowItem
{
    private const double Gutter = 8;

    public override double Height(double width) => Math.Max(6, Set(width).Count() * SheetStyle.Small.LineHeight);

    public override void Draw(SvgWriter svg, SheetPoint at, double width)
    {
        ZonesPass.BadgeSymbol(svg, new(at.X + 2.8, at.Y + 2.3), letter);
        if (leadsTo is not null) svg.Link(new SheetBox(at.X, at.Y, width, Height(width)), leadsTo);
        var y = at.Y + SheetStyle.TextSmall;
        foreach (var (text, style) in Set(width))
        {
            svg.Text(new(at.X + Gutter, y), text, style);
            y += style.LineHeight;
        }
    }

    private IEnumerable<(string Text, TextStyle Style)> Set(double width) => lines.SelectMany((line, i) =>
    {
        var style = i == 0 ? SheetStyle.SmallBold : SheetStyle.Small;
        return style.Wrap(line, width - Gutter).Select(text => (text, style));
    });
}
