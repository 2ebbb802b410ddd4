namespace StoreMap.Sheets;

/// <summary>Known pipe runs: long-dash dot above, dashed below the floor.</summary>
internal static class PipesPass
{
    public const string Overhead = "4 1 0.6 1";
    public const string Hidden = "1.6 0.8";

    /// <summary>Places for the id, as parts of the stretch.</summary>
    private static readonly double[] OnLine = [0.5, 0.35, 0.65, 0.2, 0.8];

    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Pipes.Count == 0) return;
        d.Svg.Begin("pipes", "pipes", d.Words["legend.pipe"]);
        foreach (var pipe in d.Plan.Pipes)
        {
            d.Svg.Begin("pipe-" + pipe.Id, "pipe", d.Words.Say("plan.pipe", pipe.Id, d.Words.Level(pipe.Level)));
            d.Svg.Polyline(d.Points(pipe.Path.Points), Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, pipe.Level == "ceiling" ? Overhead : Hidden));
            d.Svg.End();
            AddLabel(d, pipe);
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Pipe);
    }

    /// <summary>The run's id on its longest stretch: reports name runs by it.</summary>
    private static void AddLabel(PlanDrawing d, Plans.Pipe pipe)
    {
        var points = d.Points(pipe.Path.Points);
        var (a, b) = points.Zip(points.Skip(1)).MaxBy(s => s.First.DistanceTo(s.Second));
        var label = new PlanLabel
        {
            Lines = [pipe.Id], Style = SheetStyle.SmallMuted, Anchor = (a + b) * 0.5, Priority = LabelPriority.Equipment, Layer = "labels-pipes",
            Key = d.Words.Say("plan.pipe", pipe.Id, d.Words.Level(pipe.Level)),
        };
        d.Labels.Add(label with { Spots = [.. OnLine.Select(t => new LabelSpot(a + ((b - a) * t))), .. LabelSpots.Rings(label, 3, 6, 10)] });
    }
}
