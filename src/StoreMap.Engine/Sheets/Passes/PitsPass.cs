namespace StoreMap.Sheets;

/// <summary>Pits, trenches and chases under fixtures: hidden below, hence dashed and hatched.</summary>
internal static class PitsPass
{
    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Pits.Count == 0) return;
        var hatch = Hatch(d.Svg);
        d.Svg.Begin("pits", "pits", d.Words["legend.pit"]);
        foreach (var pit in d.Plan.Pits)
        {
            d.Svg.Begin("pit-" + pit.Id, "pit", $"{d.Words["pit." + pit.Kind]} {pit.Id}");
            d.Svg.Polygon(d.Points(pit.Outline), new Paint(hatch, SheetStyle.Muted, SheetStyle.Narrow, "1.6 0.8"));
            d.Svg.End();
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Pit);
    }

    /// <summary>Level lines: the slanting ones say how certain the map is.</summary>
    public static string Hatch(SvgWriter svg) => svg.Hatch("hatch-pit", 1.6, SheetStyle.Hair, SheetStyle.Rule, 0);
}
