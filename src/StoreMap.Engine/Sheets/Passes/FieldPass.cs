using StoreMap.Fields;
using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The gas field: probed floor in a faint tint, isobands over it, hatched away where it is uncertain, contour lines with values.
/// Floor that the readings say nothing about stays plain.</summary>
internal static class FieldPass
{
    /// <summary>Largest distance that thinning moves a border, sheet millimetres.</summary>
    private const double Thinning = 0.04;

    /// <summary>Longest edge along cells that is a step of a stair, in cells.</summary>
    private const double Step = 3.5;

    /// <summary>One hatch for each of <see cref="FieldContours.FadingFrom"/>.</summary>
    private static readonly (string Id, double Pitch, double Width)[] Hatches = [("hatch-fair", 1.5, 0.35), ("hatch-weak", 1.1, 0.5)];

    /// <summary>Where along a contour line its value may stand, in parts of its length.</summary>
    private static readonly double[] LabelPlaces = [0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95];

    /// <summary>Draws the field.</summary>
    /// <param name="d">The drawing.</param>
    /// <param name="contours">The field's areas and lines.</param>
    public static void Draw(PlanDrawing d, FieldContours contours)
    {
        d.Svg.Begin("field", "field", d.Words["plan.field"], d.Words["plan.field-description"]);
        DrawProbed(d, contours);
        DrawBands(d, contours);
        DrawFading(d, contours);
        DrawLines(d, contours);
        d.Svg.End();
        d.Uses(LegendSymbol.Unsurveyed);
    }

    private static void DrawProbed(PlanDrawing d, FieldContours contours)
    {
        d.Svg.Begin("field-probed", "probed", d.Words["legend.probed"]);
        d.Svg.Rings(Rings(d, contours, contours.Areas[0]), Paint.Solid(SheetStyle.Probed));
        d.Svg.End();
    }

    /// <summary>Each level's whole area is painted over the one below, so thinned borders leave no slits.</summary>
    private static void DrawBands(PlanDrawing d, FieldContours contours)
    {
        var scale = contours.Scale;
        d.Svg.Begin("field-bands", "bands");
        for (var i = 0; i < scale.Levels.Count; i++)
        {
            var area = contours.Areas[i + 1];
            if (area.Rings.Count == 0) continue;
            d.Svg.Begin($"band-{i + 1}", "band", d.Words.Say("plan.band", Numbers.Ppm(scale.Levels[i])));
            d.Svg.Rings(Rings(d, contours, area), Paint.Solid(scale.ColourOf(i).Hex));
            d.Svg.End();
        }

        d.Svg.End();
    }

    private static void DrawFading(PlanDrawing d, FieldContours contours)
    {
        if (contours.Fading.Count == 0) return;
        d.Svg.Begin("field-uncertain", "uncertain", d.Words["legend.uncertain"]);
        foreach (var (area, (id, pitch, width)) in contours.Fading.Zip(Hatches))
        {
            if (area.Rings.Count == 0) continue;
            d.Svg.Rings(Rings(d, contours, area), new Paint(d.Svg.Hatch(id, pitch, width, SheetStyle.Paper, 45)));
            d.Uses(LegendSymbol.Uncertain);
        }

        d.Svg.End();
    }

    private static void DrawLines(PlanDrawing d, FieldContours contours)
    {
        d.Svg.Begin("contours", "contours", d.Words["plan.contours"]);
        foreach (var line in contours.Lines)
        {
            var action = line.Level == contours.Scale.ActionPpm;
            var points = Thin.Line(d.Points(line.Points), Thinning);
            d.Svg.Polyline(points, Paint.Line(action ? SheetStyle.Medium : SheetStyle.Hair, SheetStyle.Ink));
            AddLabel(d, points, line.Level);
        }

        d.Svg.End();
    }

    /// <summary>A value on its line, at the middle of the line first; short lines stay without.</summary>
    private static void AddLabel(PlanDrawing d, IReadOnlyList<SheetPoint> points, double level)
    {
        const double Shortest = 14;
        var length = points.Zip(points.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
        if (length < Shortest) return;
        var label = new PlanLabel
        {
            Lines = [Numbers.Ppm(level)], Style = SheetStyle.SmallMuted, Anchor = points[0], Priority = LabelPriority.Contour + (level / 1e6),
            Layer = "labels-contours",
        };
        d.Uses(LegendSymbol.Contour);
        d.Labels.Add(label with { Spots = [.. LabelPlaces.Select(t => new LabelSpot(At(points, t * length)))] });
    }

    private static SheetPoint At(IReadOnlyList<SheetPoint> points, double along)
    {
        for (var i = 0; i + 1 < points.Count; i++)
        {
            var step = points[i].DistanceTo(points[i + 1]);
            if (along <= step) return points[i] + ((points[i + 1] - points[i]) * (step == 0 ? 0 : along / step));
            along -= step;
        }

        return points[^1];
    }

    private static IEnumerable<IReadOnlyList<SheetPoint>> Rings(PlanDrawing d, FieldContours contours, Isoband band)
    {
        var step = Step * d.To.Length(contours.CellMetres);
        return band.Rings.Select(ring => Thin.Ring(Rounded.Ring(d.Points(ring), step), Thinning)).Where(ring => ring.Count >= 3);
    }
}
