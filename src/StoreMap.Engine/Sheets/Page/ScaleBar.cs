namespace StoreMap.Sheets;

/// <summary>A graphic scale bar in the user's units, true on any reduction of the page.</summary>
internal static class ScaleBar
{
    /// <summary>Height that the bar and its figures need.</summary>
    public const double Height = 7.5;

    private const double BarHeight = 1.6;

    /// <summary>The bar's division, in the user's unit, and the number of divisions: 4 or 5 of 1, 2, 2.5 or 5 times a power of ten.</summary>
    /// <param name="scale">Scale denominator.</param>
    /// <param name="unitMetres">Metres in the unit of the figures.</param>
    /// <param name="width">Room, millimetres.</param>
    public static (double Division, int Count) Divisions(double scale, double unitMetres, double width)
    {
        var perUnit = unitMetres * 1000 / scale;
        var best = (Division: 1e-3, Count: 4);
        for (var power = -3; power <= 4; power++)
        {
            foreach (var digit in new[] { 1.0, 2, 5 })
            {
                var division = digit * Math.Pow(10, power);
                foreach (var count in new[] { 4, 5 })
                {
                    if (division * count * perUnit <= width && division * count > best.Division * best.Count) best = (division, count);
                }
            }
        }

        return best;
    }

    /// <summary>Draws the bar with its upper left corner at a point.</summary>
    /// <returns>The width drawn, figures included.</returns>
    public static double Draw(SvgWriter svg, SheetPoint at, double scale, LengthUnit units, double width)
    {
        var unit = units.IsCustomary() ? LengthUnit.Foot : LengthUnit.Metre;
        var style = SheetStyle.Small;
        var unitText = " " + unit.Symbol();
        var (division, count) = Divisions(scale, unit.InMetres(), width - style.WidthOf("0000" + unitText));
        var step = division * unit.InMetres() * 1000 / scale;
        svg.Begin("scale-bar", "scale-bar");
        var left = at.X + (style.WidthOf("0") / 2);
        var top = at.Y + style.HeightMillimetres + 1.2;
        for (var i = 0; i < count; i++)
        {
            var fill = i % 2 == 0 ? SheetStyle.Ink : SheetStyle.Paper;
            svg.Rectangle(new SheetBox(left + (i * step), top, step, BarHeight), new Paint(fill, SheetStyle.Ink, SheetStyle.Narrow));
        }

        var decimals = division < 1 ? (int)Math.Ceiling(-Math.Log10(division)) : 0;
        var right = left;
        for (var i = 0; i <= count; i++)
        {
            var text = Numbers.Fixed(i * division, i == 0 ? 0 : decimals);
            var half = style.WidthOf(text) / 2;
            var x = left + (i * step);
            if (i > 0 && i < count && x - half < right + 1.5) continue;
            if (i > 0 && i < count && x + half > left + (count * step) - (style.WidthOf(Numbers.Fixed(count * division, decimals)) / 2) - 1.5) continue;
            svg.Text(new(x - half, at.Y + style.HeightMillimetres), i == count ? text + unitText : text, style);
            right = x + half + (i == count ? style.WidthOf(unitText) : 0);
        }

        svg.End();
        return right - at.X;
    }
}
