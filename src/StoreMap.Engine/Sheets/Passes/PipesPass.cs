namespace StoreMap.Sheets;

/// <summary>Known pipe runs: long-dash dot above, dashed below the floor.</summary>
internal static class PipesPass
{
    public const string Overhead = "4 1 0.6 1";
    public const string Hidden = "1.6 0.8";

    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Pipes.Count == 0) return;
        d.Svg.Begin("pipes", "pipes", d.Words["legend.pipe"]);
        foreach (var pipe in d.Plan.Pipes)
        {
            d.Svg.Begin("pipe-" + pipe.Id, "pipe", d.Words.Say("plan.pipe", pipe.Id, d.Words.Level(pipe.Level)));
            d.Svg.Polyline(d.Points(pipe.Path.Points), Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, pipe.Level == "ceiling" ? Overhead : Hidden));
            d.Svg.End();
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Pipe);
    }
}
