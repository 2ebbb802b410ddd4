namespace StoreMap.Sheets;

/// <summary>Headings, lines and cautions as the notes of a sheet use them.</summary>
internal static class NoteItems
{
    public static FlowItem Heading(string text) => new HeadingItem(text);

    public static FlowItem Line(string text, double after = 0.4) => new TextItem(text, SheetStyle.Small) { After = after };

    public static FlowItem Muted(string text) => new TextItem(text, SheetStyle.SmallMuted) { After = 0.4 };

    public static FlowItem Bullet(string text) => new TextItem(text, SheetStyle.Small, "•") { After = 0.4 };

    public static FlowItem Gap(double height) => new DrawnItem(height, (_, _, _) => { }) { Parts = true };

    public static FlowItem Rule() => new DrawnItem(2.4, (svg, at, width) =>
        svg.Line(new(at.X, at.Y + 1.2), new(at.X + width, at.Y + 1.2), Paint.Line(SheetStyle.Hair, SheetStyle.Rule))) { Parts = true };

    /// <summary>A caution with the general warning sign: yellow triangle, black edge and mark (ISO 3864 sense).</summary>
    public static FlowItem Caution(string text) => new MarkedItem(6, 4.4, WarningSign, text, SheetStyle.Small) { After = 0.5 };

    /// <summary>A mark of the legend and what it means.</summary>
    public static FlowItem Symbol(Action<SvgWriter, SheetPoint> mark, string text) => new MarkedItem(11, 4.4, mark, text, SheetStyle.Small) { After = 0.2 };

    /// <summary>Marks with short meanings, two beside one another where both fit.</summary>
    public static IEnumerable<FlowItem> Symbols(IReadOnlyList<(Action<SvgWriter, SheetPoint> Mark, string Text)> entries, double width)
    {
        const double Gutter = 11;
        const double Step = 4.6;
        bool Short(int i) => i < entries.Count && SheetStyle.Small.WidthOf(entries[i].Text) <= (width / 2) - Gutter - 1;
        for (var i = 0; i < entries.Count; i++)
        {
            if (!Short(i) || !Short(i + 1))
            {
                yield return Symbol(entries[i].Mark, entries[i].Text);
                continue;
            }

            var pair = new[] { entries[i], entries[++i] };
            yield return new DrawnItem(Step, (svg, at, w) =>
            {
                for (var k = 0; k < 2; k++)
                {
                    var x = at.X + (k * w / 2);
                    pair[k].Mark(svg, new SheetPoint(x + (Gutter / 2) - 0.6, at.Y + (SheetStyle.TextSmall / 2)));
                    svg.Text(new(x + Gutter, at.Y + SheetStyle.TextSmall), pair[k].Text, SheetStyle.Small);
                }
            });
        }
    }

    private static void WarningSign(SvgWriter svg, SheetPoint middle)
    {
        var m = middle + new SheetPoint(-0.4, 0.2);
        svg.Polygon([m + new SheetPoint(0, -2.1), m + new SheetPoint(2.3, 1.9), m + new SheetPoint(-2.3, 1.9)],
            new Paint(SheetStyle.WarningYellow, SheetStyle.Ink, SheetStyle.Medium));
        svg.Line(m + new SheetPoint(0, -0.8), m + new SheetPoint(0, 0.7), Paint.Line(SheetStyle.Wide));
        svg.Circle(m + new SheetPoint(0, 1.25), 0.28, Paint.Solid(SheetStyle.Ink));
    }
}
