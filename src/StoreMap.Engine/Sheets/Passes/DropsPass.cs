namespace StoreMap.Sheets;

/// <summary>Where line sets come down: a ring with a cross.</summary>
internal static class DropsPass
{
    private const double Radius = 1.1;

    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Drops.Count == 0) return;
        d.Svg.Begin("drops", "drops", d.Words["legend.drop"]);
        foreach (var drop in d.Plan.Drops)
        {
            d.Svg.Begin("drop-" + drop.Id, "drop", d.Words.Say("plan.drop", drop.Id, string.Join(", ", drop.Fixtures)));
            Symbol(d.Svg, d.To.Point(drop.At));
            d.Svg.End();
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Drop);
    }

    public static void Symbol(SvgWriter svg, SheetPoint p)
    {
        svg.Circle(p, Radius, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
        var arm = Radius * Math.Sqrt(0.5);
        svg.Line(p + new SheetPoint(-arm, -arm), p + new SheetPoint(arm, arm), Paint.Line(SheetStyle.Narrow));
        svg.Line(p + new SheetPoint(-arm, arm), p + new SheetPoint(arm, -arm), Paint.Line(SheetStyle.Narrow));
    }
}
