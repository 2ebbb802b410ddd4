using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Sheets;

/// <summary>The walk with arrows, and the probe points numbered in walking order, in the walk's colour.</summary>
internal static class RoutePass
{
    private const double ArrowEvery = 22;
    private const double DotRadius = 0.55;

    public static void Draw(PlanDrawing d, Route route)
    {
        DrawWalk(d, route);
        DrawPoints(d, route);
    }

    private static void DrawWalk(PlanDrawing d, Route route)
    {
        d.Svg.Begin("walk", "walk", d.Words["legend.walk"]);
        var sinceArrow = ArrowEvery / 2;
        foreach (var leg in route.Legs)
        {
            var points = Thin.Line(d.Points(leg.Path), 0.02);
            if (points.Count < 2) continue;
            d.Svg.Polyline(points, Paint.Line(SheetStyle.Medium, SheetStyle.Blue));
            for (var i = 0; i + 1 < points.Count; i++)
            {
                var length = points[i].DistanceTo(points[i + 1]);
                if (length == 0) continue;
                d.Labels.Space.Spare(points[i], points[i + 1]);
                var direction = (points[i + 1] - points[i]) * (1 / length);
                var at = ArrowEvery - sinceArrow;
                for (; at < length; at += ArrowEvery) ArrowHead(d.Svg, points[i] + (direction * at), direction);
                sinceArrow = ArrowEvery - (at - length);
            }
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Walk);
    }

    public static void ArrowHead(SvgWriter svg, SheetPoint tip, SheetPoint direction)
    {
        var side = new SheetPoint(-direction.Y, direction.X) * 0.75;
        var back = tip - (direction * 2);
        svg.Polygon([tip, back + side, back - side], Paint.Solid(SheetStyle.Blue));
    }

    public static void PointSymbol(SvgWriter svg, SheetPoint at) => svg.Circle(at, DotRadius, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));

    private static void DrawPoints(PlanDrawing d, Route route)
    {
        var points = route.Points.ToDictionary(p => p.Id);
        var ordered = route.Order.Select(id => points[id]).ToList();
        d.Svg.Begin("probe-points", "probe-points", d.Words["legend.probe-point"]);
        for (var i = 0; i < ordered.Count; i++)
        {
            var at = d.To.Point(ordered[i].At);
            d.Svg.Begin("point-" + ordered[i].Id, "probe-point", $"{i + 1}: {ordered[i].Id}");
            PointSymbol(d.Svg, at);
            d.Svg.End();
            d.Labels.Space.Block(new SheetBox(at.X - DotRadius, at.Y - DotRadius, 2 * DotRadius, 2 * DotRadius));
            AddNumber(d, ordered, i, at);
        }

        d.Svg.End();
        d.Uses(LegendSymbol.ProbePoint);
    }

    /// <summary>First and last point of a run along one fixture are numbered first, then every fifth, then the rest as there is room;
    /// the table lists them all.</summary>
    private static void AddNumber(PlanDrawing d, List<ProbePoint> ordered, int i, SheetPoint at)
    {
        var point = ordered[i];
        bool Same(int other) => other >= 0 && other < ordered.Count && ordered[other].Fixture is not null && ordered[other].Fixture == point.Fixture;
        var end = !Same(i - 1) || !Same(i + 1);
        var label = new PlanLabel
        {
            Lines = [Numbers.Whole(i + 1)], Style = end ? SheetStyle.SmallWalkBold : SheetStyle.SmallWalk, Anchor = at,
            Priority = end ? LabelPriority.PointEnds : (i + 1) % 5 == 0 ? LabelPriority.Point + 1 : LabelPriority.Point, Layer = "labels-points",
        };
        var towards = d.To.Point(point.Stand) - at;
        var length = towards.DistanceTo(default);
        var outward = length > 0.01 ? towards * (1 / length) : new SheetPoint(0, -1);
        // A step back from the straight keeps numbers off slanted directions.
        outward = Math.Abs(outward.X) >= Math.Abs(outward.Y) ? new SheetPoint(Math.Sign(outward.X), 0) : new SheetPoint(0, Math.Sign(outward.Y));
        // Beyond the walk first, so that the line stays whole; then between dot and walk; then on the other side.
        var spots = LabelSpots.Outward(label, outward, Math.Min(length, 6) + 0.7, 2).Concat(LabelSpots.Outward(label, outward, 1, 1))
            .Concat(LabelSpots.Outward(label, outward * -1, 1, 1)).Concat(LabelSpots.Around(label, 0.9));
        if (end) spots = spots.Concat(LabelSpots.Rings(label, 3, 5, 8));
        d.Labels.Add(label with { Spots = [.. spots] });
    }
}
