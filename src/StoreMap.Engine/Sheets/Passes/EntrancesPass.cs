using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Ways in: a gap in the outer wall and an arrow pointing in.</summary>
internal static class EntrancesPass
{
    private const double HalfGapMetres = 0.9;
    private const double Arrow = 3.2;

    public static void Draw(PlanDrawing d)
    {
        if (d.Plan.Entrances.Count == 0) return;
        d.Svg.Begin("entrances", "entrances", d.Words["legend.entrance"]);
        foreach (var entrance in d.Plan.Entrances)
        {
            var (wall, inward) = NearestWall(d.Plan.Outline, entrance.At);
            var along = new PlanPoint(-inward.Y, inward.X);
            d.Svg.Begin("entrance-" + entrance.Id, "entrance", d.Words.Say("plan.entrance", entrance.Id));
            d.Svg.Line(d.To.Point(wall - (along * HalfGapMetres)), d.To.Point(wall + (along * HalfGapMetres)), Paint.Line(SheetStyle.Heavy + 0.3, SheetStyle.Paper));
            Symbol(d.Svg, d.To.Point(wall), d.To.Direction(inward));
            d.Svg.End();
        }

        d.Svg.End();
        d.Uses(LegendSymbol.Entrance);
    }

    public static void Symbol(SvgWriter svg, SheetPoint wall, SheetPoint inward)
    {
        var side = new SheetPoint(-inward.Y, inward.X) * (Arrow * 0.45);
        var tip = wall + (inward * 0.5);
        var back = wall - (inward * (Arrow - 0.5));
        svg.Polygon([tip, back + side, back - side], Paint.Solid(SheetStyle.Ink));
    }

    private static (PlanPoint At, PlanPoint Inward) NearestWall(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var best = (At: p, Inward: new PlanPoint(0, 1), Distance: double.PositiveInfinity);
        for (var i = 0; i < ring.Count; i++)
        {
            var side = new PlanSegment(ring[i], ring[(i + 1) % ring.Count]);
            if (side.Length == 0) continue;
            var nearest = side.Nearest(p);
            var direction = (side.B - side.A) * (1 / side.Length);
            if (nearest.DistanceTo(p) < best.Distance) best = (nearest, new PlanPoint(-direction.Y, direction.X), nearest.DistanceTo(p));
        }

        return (best.At, best.Inward);
    }
}
