namespace StoreMap.Sheets;

/// <summary>Pits, trenches and chases under fixtures: hidden below, hence dashed and hatched.</summary>
internal static class PitsPass
{
    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Pits.Count == 0) return;
        var hatch = d.Svg.Hatch("hatch-pit", 1.6, SheetStyle.Hair, SheetStyle.Rule, 45);
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
}
