namespace StoreMap.Sheets;

/// <summary>Items that belong together: on the next column rather than torn, unless they are many.</summary>
/// <param name="head">What stands above the items.</param>
/// <param name="items">The items.</param>
/// <param name="again">What stands above the rest when the block is torn.</param>
internal sealed class FlowBlock(IReadOnlyList<FlowItem> head, IReadOnlyList<FlowItem> items, FlowItem again) : FlowItem
{
    /// <summary>A block no higher than this is not torn, millimetres.</summary>
    private const double Whole = 45;

    /// <summary>Fewer items do not stand alone on either side of a break.</summary>
    private const int LeastPart = 3;

    public override double Height(double width) => head.Concat(items).Sum(i => i.Height(width) + i.After);

    public override void Draw(SvgWriter svg, SheetPoint at, double width)
    {
        var y = at.Y;
        foreach (var item in head.Concat(items))
        {
            item.Draw(svg, new(at.X, y), width);
            y += item.Height(width) + item.After;
        }
    }

    public override (FlowItem Head, FlowItem Tail)? Split(double width, double height)
    {
        if (Height(width) <= Whole) return null;
        var room = height - head.Sum(i => i.Height(width) + i.After);
        var fit = 0;
        for (; fit < items.Count && room >= items[fit].Height(width); fit++) room -= items[fit].Height(width) + items[fit].After;
        fit = Math.Min(fit, items.Count - LeastPart);
        if (fit < LeastPart) return null;
        return (new FlowBlock(head, [.. items.Take(fit)], again) { RepeatAtHead = RepeatAtHead },
            new FlowBlock([again], [.. items.Skip(fit)], again) { RepeatAtHead = RepeatAtHead, After = After });
    }
}
