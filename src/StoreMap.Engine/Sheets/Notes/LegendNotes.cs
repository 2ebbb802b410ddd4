using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>The legend: the scale of concentrations and every symbol that stands on the sheet.</summary>
internal static class LegendNotes
{
    /// <summary>The scale of concentrations, and the symbols of readings, zones and walk.</summary>
    public static IEnumerable<FlowItem> Subject(Words words, IReadOnlyCollection<LegendSymbol> used, ConcentrationScale? scale)
    {
        yield return NoteItems.Heading(words["legend.heading"]);
        if (scale is not null) yield return Ramp(words, scale);
        foreach (var item in Symbols(words, used.Where(s => s < LegendSymbol.Front))) yield return item;
    }

    /// <summary>The symbols of the plan itself.</summary>
    public static IEnumerable<FlowItem> PlanSymbols(Words words, IReadOnlyCollection<LegendSymbol> used)
    {
        yield return NoteItems.Heading(words["legend.plan-heading"]);
        foreach (var item in Symbols(words, used.Where(s => s >= LegendSymbol.Front))) yield return item;
    }

    private static IEnumerable<FlowItem> Symbols(Words words, IEnumerable<LegendSymbol> symbols)
    {
        // Long meanings first, in their order; then the short ones, paired.
        var entries = symbols.Order().Select(s => (Mark: Mark(s), Text: words["legend." + s.Kebab()])).Where(e => e.Mark is not null).Select(e => (e.Mark!, e.Text))
            .OrderBy(e => SheetStyle.Small.WidthOf(e.Text) > (PlanPage.LeastColumn / 2) - 18 ? 0 : 1).ToList();
        return NoteItems.Symbols(entries, PlanPage.LeastColumn - 6);
    }

    private static DrawnItem Ramp(Words words, ConcentrationScale scale) =>
        new(21, (svg, at, width) => DrawRamp(svg, at, width, words, scale)) { After = 0.6 };

    /// <summary>Boxes in the colours of the bands, their lower ends written below, the action level marked above.</summary>
    public static void DrawRamp(SvgWriter svg, SheetPoint at, double width, Words words, ConcentrationScale scale)
    {
        const double BoxTop = 9.4;
        const double BoxHeight = 5;
        svg.Begin("legend-scale", "legend-scale");
        svg.Text(new(at.X, at.Y + SheetStyle.TextSmall), words["legend.scale"], SheetStyle.Small);
        var cells = scale.Levels.Count + 1;
        var step = Math.Min(14, (width - 8) / cells);
        for (var i = 0; i < cells; i++)
        {
            var fill = i == 0 ? SheetStyle.Probed : scale.ColourOf(i - 1).Hex;
            svg.Rectangle(new SheetBox(at.X + (i * step), at.Y + BoxTop, step, BoxHeight), new Paint(fill, SheetStyle.Ink, SheetStyle.Hair));
            if (i == 0) continue;
            var x = at.X + (i * step);
            svg.Text(new(x, at.Y + BoxTop + BoxHeight + 3.6), Numbers.Ppm(scale.Levels[i - 1]), SheetStyle.Small, TextAnchor.Middle);
            if (scale.Levels[i - 1] != scale.ActionPpm) continue;
            svg.Line(new(x, at.Y + BoxTop - 1.2), new(x, at.Y + BoxTop + BoxHeight), Paint.Line(SheetStyle.Wide));
            svg.Text(new(x, at.Y + BoxTop - 1.8), words["legend.action"], SheetStyle.SmallBold, x - at.X > width / 2 ? TextAnchor.End : TextAnchor.Start);
        }

        svg.End();
    }

    private static Action<SvgWriter, SheetPoint>? Mark(LegendSymbol symbol) => symbol switch
    {
        LegendSymbol.ReadingHit => (svg, p) => ReadingsPass.Symbol(svg, p, Sample(12, 2)),
        LegendSymbol.ReadingSeen => (svg, p) => ReadingsPass.Symbol(svg, p, Sample(1.5, 2)),
        LegendSymbol.ReadingQuiet => (svg, p) => ReadingsPass.Symbol(svg, p, Sample(0, 2)),
        LegendSymbol.ReadingOver => (svg, p) => svg.Text(new(p.X, p.Y + 1.25), "≥9", SheetStyle.SmallBold, TextAnchor.Middle),
        LegendSymbol.ReadingStill => (svg, p) =>
        {
            ReadingsPass.Symbol(svg, p - new SheetPoint(1.8, 0), Sample(12, 2, AirState.FansOff));
            ReadingsPass.Symbol(svg, p + new SheetPoint(1.8, 0), Sample(0, 2, AirState.FansOff));
        },
        LegendSymbol.ReadingTwo => (svg, p) => svg.Text(new(p.X, p.Y + 1.25), "7 & 3", SheetStyle.SmallBold, TextAnchor.Middle),
        LegendSymbol.Contour => (svg, p) =>
        {
            svg.Line(p - new SheetPoint(4.5, 0), p + new SheetPoint(4.5, 0), Paint.Line(SheetStyle.Hair));
            svg.Rectangle(new SheetBox(p.X - 1.4, p.Y - 1.6, 2.8, 3.2), Paint.Solid(SheetStyle.Paper));
            svg.Text(new(p.X, p.Y + 1.25), "5", SheetStyle.SmallMuted, TextAnchor.Middle);
        },
        LegendSymbol.Zone => (svg, p) => ZonesPass.BarSymbol(svg, [p - new SheetPoint(4, 0), p + new SheetPoint(4, 0)]),
        LegendSymbol.ElsewhereMark => (svg, p) => ZonesPass.SourceSymbol(svg, p, 1.9),
        LegendSymbol.ProbePoint => (svg, p) =>
        {
            RoutePass.PointSymbol(svg, p - new SheetPoint(2, 0));
            svg.Text(new(p.X + 1.6, p.Y + 1.25), "12", SheetStyle.SmallWalkBold, TextAnchor.Middle);
        },
        LegendSymbol.Walk => (svg, p) =>
        {
            svg.Line(p - new SheetPoint(4, 0), p + new SheetPoint(4, 0), Paint.Line(SheetStyle.Medium, SheetStyle.Blue));
            RoutePass.ArrowHead(svg, p + new SheetPoint(1, 0), new SheetPoint(1, 0));
        },
        LegendSymbol.Tag => (svg, p) =>
        {
            svg.Rectangle(new SheetBox(p.X - 2.8, p.Y - 1.9, 5.6, 3.8), new Paint(SheetStyle.Paper, SheetStyle.Muted, SheetStyle.Hair), 0.4);
            svg.Text(new(p.X, p.Y + 1.25), "7B", SheetStyle.SmallBold, TextAnchor.Middle);
        },
        LegendSymbol.Front => (svg, p) =>
        {
            svg.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), Paint.Line(SheetStyle.Wide));
            svg.Line(p + new SheetPoint(-4, 0.75), p + new SheetPoint(4, 0.75), Paint.Line(SheetStyle.Medium));
            svg.Line(p + new SheetPoint(0.8, -1.5), p + new SheetPoint(0.8, 1.5), Paint.Line(SheetStyle.Hair, SheetStyle.Muted));
        },
        LegendSymbol.Doors => (svg, p) =>
        {
            svg.Line(p - new SheetPoint(4, 0), p + new SheetPoint(4, 0), Paint.Line(SheetStyle.Wide));
            for (var i = -4; i <= 4; i += 2) svg.Line(p + new SheetPoint(i, 0), p + new SheetPoint(i, 0.9), Paint.Line(SheetStyle.Narrow));
        },
        LegendSymbol.WalkIn => (svg, p) =>
        {
            svg.Line(p - new SheetPoint(4, 1), p + new SheetPoint(4, -1), Paint.Line(1));
            svg.Line(p - new SheetPoint(4, 1), p + new SheetPoint(4, -1), Paint.Line(0.4, SheetStyle.Paper));
            FixturesPass.CoilSymbol(svg, p + new SheetPoint(0, 0.8));
        },
        LegendSymbol.SelfContained => (svg, p) =>
        {
            svg.Rectangle(new SheetBox(p.X - 2, p.Y - 1.4, 4, 2.8), Paint.Line(SheetStyle.Wide));
            svg.Line(p + new SheetPoint(-2, 1.4), p + new SheetPoint(2, -1.4), Paint.Line(SheetStyle.Hair, SheetStyle.Rule));
        },
        LegendSymbol.Drop => DropsPass.Symbol,
        LegendSymbol.Pit => (svg, p) =>
        {
            svg.Rectangle(new SheetBox(p.X - 4, p.Y - 1.4, 8, 2.8), new Paint(PitsPass.Hatch(svg), SheetStyle.Muted, SheetStyle.Narrow, "1.6 0.8"));
        },
        LegendSymbol.Pipe => (svg, p) =>
        {
            svg.Line(p + new SheetPoint(-4.5, -0.8), p + new SheetPoint(4.5, -0.8), Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, PipesPass.Overhead));
            svg.Line(p + new SheetPoint(-4.5, 0.8), p + new SheetPoint(4.5, 0.8), Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, PipesPass.Hidden));
        },
        LegendSymbol.Equipment => EquipmentPass.Symbol,
        LegendSymbol.Entrance => (svg, p) => EntrancesPass.Symbol(svg, p - new SheetPoint(0, 1), new SheetPoint(0, -1)),
        LegendSymbol.Obstacle => (svg, p) =>
            svg.Rectangle(new SheetBox(p.X - 4, p.Y - 1.2, 8, 2.4), new Paint(SheetStyle.ObstacleFill, SheetStyle.Rule, SheetStyle.Hair)),
        LegendSymbol.Unsurveyed => (svg, p) =>
        {
            svg.Rectangle(new SheetBox(p.X - 4, p.Y - 1.4, 4, 2.8), new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Hair));
            svg.Rectangle(new SheetBox(p.X, p.Y - 1.4, 4, 2.8), new Paint(SheetStyle.Probed, SheetStyle.Ink, SheetStyle.Hair));
        },
        LegendSymbol.Uncertain => (svg, p) =>
        {
            var box = new SheetBox(p.X - 4, p.Y - 1.6, 8, 3.2);
            svg.Rectangle(box, Paint.Solid(ColourMap.At(ColourMapKind.Cividis, 0.3).Hex));
            svg.Rectangle(box, new Paint(svg.Hatch("hatch-weak", 1.1, 0.5, SheetStyle.Paper, 45), SheetStyle.Ink, SheetStyle.Hair));
        },
        _ => null,
    };

    private static NetReading Sample(double ppm, double action, AirState air = AirState.FansOn) => new()
    {
        Reading = new Reading { Time = default, Ppm = ppm, Place = new ReadingPlace { At = default }, Air = air },
        BackgroundPpm = 0, NetPpm = ppm, DeviationPpm = 1, DetectionPpm = 1, ActionPpm = action,
    };
}
