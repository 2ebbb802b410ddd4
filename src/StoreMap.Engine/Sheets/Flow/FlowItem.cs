namespace StoreMap.Sheets;

/// <summary>Something that is set one under the other in columns: a paragraph, a table row, a legend line.</summary>
internal abstract class FlowItem
{
    /// <summary>Space after the item, millimetres; not needed at the foot of a column.</summary>
    public double After { get; init; }

    /// <summary>True when the item must not stand last in a column, as a heading.</summary>
    public bool KeepWithNext { get; init; }

    /// <summary>What is set again at the head of the next column when the item falls there, as a table's head; null for nothing.</summary>
    public FlowItem? RepeatAtHead { get; init; }

    /// <summary>What stands above the rest when the text under a heading runs on to the next column; null for all but headings.</summary>
    public virtual FlowItem? GoesOn => null;

    /// <summary>True for what only parts two items, as a rule: left out at the head of a column.</summary>
    public bool Parts { get; init; }

    /// <summary>Height at a width.</summary>
    public abstract double Height(double width);

    /// <summary>Draws the item with its upper left corner at a point.</summary>
    public abstract void Draw(SvgWriter svg, SheetPoint at, double width);

    /// <summary>Splits the item so that the first part is no higher than a height; null when it can't be split there.</summary>
    public virtual (FlowItem Head, FlowItem Tail)? Split(double width, double height) => null;
}

/// <summary>A paragraph, or any lines of text.</summary>
internal class TextItem : FlowItem
{
    private readonly string text;
    private readonly TextStyle style;
    private readonly string? bullet;

    /// <summary>Fewer lines of a paragraph don't stand alone at the foot or head of a column.</summary>
    private const int LeastPart = 2;

    /// <summary>A text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="style">How it is set.</param>
    /// <param name="bullet">What stands before its first line, the text hanging behind it; null for nothing.</param>
    public TextItem(string text, TextStyle style, string? bullet = null)
    {
        this.text = text;
        this.style = style;
        this.bullet = bullet;
    }

    private double Indent => bullet is null ? 0 : style.WidthOf(bullet.Length == 0 ? "•" : bullet) + 1.2;

    public override double Height(double width) => Lines(width).Count * style.LineHeight;

    public override void Draw(SvgWriter svg, SheetPoint at, double width)
    {
        var y = at.Y + style.HeightMillimetres;
        if (bullet is { Length: > 0 }) svg.Text(new(at.X, y), bullet, style);
        foreach (var line in Lines(width))
        {
            svg.Text(new(at.X + Indent, y), line, style);
            y += style.LineHeight;
        }
    }

    public override (FlowItem Head, FlowItem Tail)? Split(double width, double height)
    {
        var lines = Lines(width);
        var fit = (int)Math.Floor(height / style.LineHeight);
        fit = Math.Min(fit, lines.Count - LeastPart);
        if (fit < LeastPart) return null;
        return (new TextItem(string.Join(' ', lines.Take(fit)), style, bullet),
            new TextItem(string.Join(' ', lines.Skip(fit)), style, bullet is null ? null : "") { After = After });
    }

    private IReadOnlyList<string> Lines(double width) => style.Wrap(text, width - Indent);
}

/// <summary>A heading; it is repeated where the text under it runs on to the next column.</summary>
internal sealed class HeadingItem : TextItem
{
    private readonly string text;
    private readonly bool again;

    /// <summary>A heading.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="again">True where it is repeated.</param>
    public HeadingItem(string text, bool again = false)
        : base(again ? "… " + text : text, SheetStyle.BodyBold)
    {
        this.text = text;
        this.again = again;
        After = 0.6;
        KeepWithNext = true;
    }

    public override FlowItem? GoesOn => again ? this : new HeadingItem(text, again: true);
}

/// <summary>Anything drawn at a fixed height.</summary>
internal sealed class DrawnItem(double height, Action<SvgWriter, SheetPoint, double> draw) : FlowItem
{
    public override double Height(double width) => height;

    public override void Draw(SvgWriter svg, SheetPoint at, double width) => draw(svg, at, width);
}

/// <summary>A mark in a gutter with a text beside it: a line of a legend, a caution with its sign.</summary>
internal sealed class MarkedItem(double gutter, double markHeight, Action<SvgWriter, SheetPoint> mark, string text, TextStyle style) : FlowItem
{
    public override double Height(double width) => Math.Max(markHeight, style.Wrap(text, width - gutter).Count * style.LineHeight);

    public override void Draw(SvgWriter svg, SheetPoint at, double width)
    {
        var lines = style.Wrap(text, width - gutter);
        mark(svg, new SheetPoint(at.X + (gutter / 2) - 0.6, at.Y + (style.HeightMillimetres / 2)));
        for (var i = 0; i < lines.Count; i++)
        {
            svg.Text(new(at.X + gutter, at.Y + style.HeightMillimetres + (i * style.LineHeight)), lines[i], style);
        }
    }
}
