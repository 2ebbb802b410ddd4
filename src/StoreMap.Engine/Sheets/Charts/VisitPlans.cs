using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>The visits side by side: small plans at one scale, readings in one colour scale.</summary>
internal static class VisitPlans
{
    private const double Head = 7;
    private const double Margin = 3;

    /// <summary>Room below each plan's head that the plans leave unused at their scale.</summary>
    public static double HeightOf(Plan plan, double scale) => Head + (Size(plan).Height * 1000 / scale) + (2 * Margin);

    /// <summary>The scale at which a number of plans stand side by side in a box.</summary>
    public static StandardScale ScaleOf(Plan plan, int count, double width, double height)
    {
        var (w, h) = Size(plan);
        return StandardScale.Fitting(plan.Units, w, h, (width / count) - (2 * Margin), height - Head - (2 * Margin));
    }

    public static void Draw(
        SvgWriter svg, SheetBox box, Plan plan, IReadOnlyList<NetSurvey> visits, double denominator, ConcentrationScale scale, Words words)
    {
        var width = box.Width / visits.Count;
        var middle = (new PlanPoint(plan.Outline.Min(p => p.X), plan.Outline.Min(p => p.Y)) + new PlanPoint(plan.Outline.Max(p => p.X), plan.Outline.Max(p => p.Y))) * 0.5;
        foreach (var (i, visit) in visits.Index())
        {
            var cell = new SheetBox(box.X + (i * width), box.Y, width, box.Height);
            var day = Days.Of(visit.Survey.Start);
            svg.Begin("visit-" + day, "visit", day);
            var hits = visit.Readings.Count(r => r.IsHit);
            svg.Text(new(cell.X + Margin, cell.Y + SheetStyle.TextMedium), day, SheetStyle.BodyBold);
            svg.Text(
                new(cell.X + Margin + SheetStyle.BodyBold.WidthOf(day) + 3, cell.Y + SheetStyle.TextMedium),
                SheetStyle.Small.Fit(words.Say("compare.visit", visit.Readings.Count, hits), width - 35), SheetStyle.Small);
            var area = new SheetBox(cell.X, cell.Y + Head, cell.Width, cell.Height - Head);
            var d = new PlanDrawing(svg, plan, new PlanToSheet(denominator, 0, middle, area.Middle), area, words);
            DrawPlan(d);
            DrawReadings(d, visit, scale);
            d.Labels.Place();
            d.Labels.Draw(svg);
            svg.End();
        }
    }

    private static (double Width, double Height) Size(Plan plan) =>
        (plan.Outline.Max(p => p.X) - plan.Outline.Min(p => p.X), plan.Outline.Max(p => p.Y) - plan.Outline.Min(p => p.Y));

    private static void DrawPlan(PlanDrawing d)
    {
        foreach (var room in d.Plan.Rooms)
        {
            foreach (var (a, b) in WallsPass.WithoutOpenings(room.Outline, room.Openings)) d.Svg.Line(d.To.Point(a), d.To.Point(b), Paint.Line(SheetStyle.Narrow));
        }

        foreach (var f in d.Plan.Fixtures) d.Svg.Polygon(d.Points(f.Outline), new Paint(SheetStyle.ObstacleFill, SheetStyle.Rule, SheetStyle.Hair));
        d.Svg.Polygon(d.Points(d.Plan.Outline), Paint.Line(SheetStyle.Wide));
    }

    private static void DrawReadings(PlanDrawing d, NetSurvey visit, ConcentrationScale scale)
    {
        foreach (var r in visit.Readings.OrderBy(r => r.NetPpm))
        {
            var at = d.To.Point(r.Reading.Place.At);
            if (!ReadingsPass.Shown(r))
            {
                d.Svg.Circle(at, 0.3, Paint.Solid(SheetStyle.Rule));
                continue;
            }

            d.Svg.Circle(at, r.IsHit ? 1.3 : 0.9, new Paint((scale.ColourAt(r.NetPpm) ?? scale.ColourOf(0)).Hex, SheetStyle.Ink, r.IsHit ? SheetStyle.Medium : SheetStyle.Hair));
        }

        // The highest hit of each fixture is written.
        foreach (var hit in visit.Readings.Where(r => r.IsHit).GroupBy(r => r.Reading.Place.Fixture ?? r.Reading.Place.Room).Select(g => g.MaxBy(r => r.NetPpm)!))
        {
            var at = d.To.Point(hit.Reading.Place.At);
            d.Labels.Space.Block(new SheetBox(at.X - 1.3, at.Y - 1.3, 2.6, 2.6));
            var tag = d.Plan.FindFixture(hit.Reading.Place.Fixture)?.Tag;
            var label = new PlanLabel
            {
                Lines = [tag is null ? ReadingsPass.Text(hit) : $"{tag}: {ReadingsPass.Text(hit)}"], Style = SheetStyle.Small, Anchor = at, Priority = hit.NetPpm, Layer = "labels-hits",
            };
            d.Labels.Add(label with { Spots = [.. LabelSpots.Around(label, 1.7), .. LabelSpots.Rings(label, 4, 7, 11, 16, 22)] });
        }
    }
}
