using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Zones through the visits on one plan: a bar each, its make saying how it stands, and a letter.</summary>
internal static class ChangesPass
{
    public static void Draw(PlanDrawing d, Comparison comparison, CompareMarks marks)
    {
        d.Svg.Begin("changes", "changes", d.Words["compare.changes"]);
        foreach (var zone in comparison.Zones)
        {
            if (d.Plan.FindFixture(zone.Fixture) is not { } fixture) continue;
            var letter = marks[zone];
            d.Svg.Begin($"change-{letter}", "change " + zone.Change.Kebab(), $"{fixture.Tag}: {d.Words["change." + zone.Change.Kebab()]}");
            SheetPoint anchor;
            SheetPoint? outward = null;
            if (fixture.Front is not null && zone.From is { } from && zone.To is { } to)
            {
                var points = ZonesPass.Along(d, fixture, from, to);
                Bar(d.Svg, points, zone.Change);
                anchor = points[points.Count / 2];
                outward = d.To.Direction(fixture.OutwardAt((from + to) / 2));
            }
            else
            {
                var middle = d.To.Point(FixtureShape.Inside(fixture.Outline));
                Bar(d.Svg, [middle - new SheetPoint(3, 0), middle + new SheetPoint(3, 0)], zone.Change);
                anchor = middle;
            }

            d.Svg.End();
            ZonesPass.Badge(d, letter, anchor, outward);
        }

        foreach (var source in comparison.Sources)
        {
            if (source.At is not { } at) continue;
            var letter = marks[source];
            var words = d.Words["change." + source.Change.Kebab()];
            d.Svg.Begin($"change-{letter}", "change " + source.Change.Kebab(), $"{source.Near}: {words}");
            var centre = d.To.Point(at);
            Bar(d.Svg, [centre - new SheetPoint(2, 0), centre + new SheetPoint(2, 0)], source.Change);
            var anchor = ZonesPass.Source(d, at);
            d.Svg.End();
            ZonesPass.Badge(d, letter, anchor, null);
        }

        d.Svg.End();
    }

    /// <summary>Seen now: full bar, with a white core when it is new; not seen now: an outline, dashed when it can't be compared.</summary>
    public static void Bar(SvgWriter svg, IReadOnlyList<SheetPoint> points, ZoneChange change)
    {
        svg.Polyline(points, Paint.Line(3.2, SheetStyle.Paper));
        switch (change)
        {
            case ZoneChange.Recurring:
                svg.Polyline(points, Paint.Line(2.7, SheetStyle.Ink));
                svg.Polyline(points, Paint.Line(2, SheetStyle.Vermilion));
                break;
            case ZoneChange.New:
                svg.Polyline(points, Paint.Line(2.7, SheetStyle.Ink));
                svg.Polyline(points, Paint.Line(2, SheetStyle.Vermilion));
                svg.Polyline(points, Paint.Line(0.8, SheetStyle.Paper));
                break;
            case ZoneChange.NoLongerSeen:
                svg.Polyline(points, Paint.Line(2.2, SheetStyle.Blue));
                svg.Polyline(points, Paint.Line(1.4, SheetStyle.Paper));
                break;
            default:
                svg.Polyline(points, Paint.Line(1, SheetStyle.Muted, "1 0.8"));
                break;
        }
    }
}
