namespace StoreMap.Sheets;

/// <summary>Shelving, counters, columns: grey, thin, in the background.</summary>
internal static class ObstaclesPass
{
    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Obstacles.Count == 0) return;
        d.Svg.Begin("obstacles", "obstacles", d.Words["legend.obstacle"]);
        foreach (var obstacle in d.Plan.Obstacles)
        {
            d.Svg.Polygon(d.Points(obstacle.Outline), new Paint(SheetStyle.ObstacleFill, SheetStyle.Rule, SheetStyle.Hair));
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Obstacle);
    }
}
