using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The legend under a leak-zone detail: only what is drawn there.</summary>
internal static class DetailLegend
{
    public static void Draw(
        SvgWriter svg, SheetBox box, Words words, IReadOnlyList<NetReading> readings, LeakZone zone, Fixture fixture, Plan plan)
    {
        var entries = new List<(Action<SvgWriter, SheetPoint> Mark, string Text)>();
        if (readings.FirstOrDefault(r => r.IsHit && r.Reading.Air == AirState.FansOn) is { } hit) entries.Add(((s, p) => ReadingsPass.Symbol(s, p, hit), words["legend.reading-hit"]));
        if (readings.FirstOrDefault(r => !ReadingsPass.Shown(r)) is { } quiet) entries.Add(((s, p) => ReadingsPass.Symbol(s, p, quiet), words["legend.reading-quiet"]));
        if (zone.Profile.Count > 0)
        {
            entries.Add(((s, p) =>
            {
                s.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), Paint.Solid(SheetStyle.SkyBlue, 0.35));
                s.Line(p - new SheetPoint(4, 0), p + new SheetPoint(4, 0), Paint.Line(SheetStyle.Wide, SheetStyle.Blue));
            }, words["detail.legend-curve"]));
        }

        entries.Add(((s, p) => s.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), new Paint(s.Hatch("hatch-p2", 1.8, 0.35, SheetStyle.Vermilion, 45), SheetStyle.Rule, SheetStyle.Hair)), words["detail.legend-panel"]));
        if (plan.Drops.Any(d => d.Fixtures.Contains(fixture.Id))) entries.Add((DropsPass.Symbol, words["legend.drop"]));
        if (fixture.Drains.Count > 0)
        {
            entries.Add(((s, p) =>
            {
                s.Circle(p, 1.1, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
                s.Circle(p, 0.35, Paint.Solid(SheetStyle.Ink));
            }, words["detail.legend-drain"]));
        }

        if (fixture.ValveEnd is not null) entries.Add((FrontStrip.ValveSymbol, words["detail.legend-valve"]));
        svg.Begin("detail-legend", "legend");
        // In rows, as many to the row as fit.
        double x = box.X, y = box.Y + SheetStyle.TextSmall;
        foreach (var (mark, text) in entries)
        {
            var width = 11 + SheetStyle.Small.WidthOf(text) + 6;
            if (x + width > box.Right && x > box.X) (x, y) = (box.X, y + 5);
            mark(svg, new SheetPoint(x + 5, y - (SheetStyle.TextSmall / 2)));
            svg.Text(new(x + 11, y), text, SheetStyle.Small);
            x += width;
        }

        svg.End();
    }
}
