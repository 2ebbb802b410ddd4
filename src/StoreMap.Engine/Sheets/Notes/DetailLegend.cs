using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The legend under a leak-zone detail: only what is drawn there.</summary>
internal static class DetailLegend
{
    private const double Row = 5;
    private const double Gutter = 11;

    /// <summary>Draws the legend in rows, as many entries to the row as fit, the last row at the foot of the box.</summary>
    /// <returns>The height it takes.</returns>
    public static double Draw(
        SvgWriter svg, SheetBox box, Words words, IReadOnlyList<NetReading> readings, LeakZone zone, Fixture fixture, Plan plan)
    {
        var entries = Entries(words, readings, zone, fixture, plan);
        var places = new List<(double X, int Row)>();
        var (x, row) = (0.0, 0);
        foreach (var (_, text) in entries)
        {
            var width = Gutter + SheetStyle.Small.WidthOf(text) + 6;
            if (x > 0 && x + width - 6 > box.Width) (x, row) = (0, row + 1);
            places.Add((x, row));
            x += width;
        }

        svg.Begin("detail-legend", "legend");
        foreach (var (i, (mark, text)) in entries.Index())
        {
            var at = new SheetPoint(box.X + places[i].X, box.Bottom - 1.5 - ((row - places[i].Row) * Row));
            mark(svg, new SheetPoint(at.X + 5, at.Y - (SheetStyle.TextSmall / 2)));
            svg.Text(new(at.X + Gutter, at.Y), text, SheetStyle.Small);
        }

        svg.End();
        return (row + 1) * Row;
    }

    private static List<(Action<SvgWriter, SheetPoint> Mark, string Text)> Entries(Words words, IReadOnlyList<NetReading> readings, LeakZone zone, Fixture fixture, Plan plan)
    {
        var entries = new List<(Action<SvgWriter, SheetPoint> Mark, string Text)>();
        if (readings.FirstOrDefault(r => r.IsHit && r.Reading.Air == AirState.FansOn) is { } hit) entries.Add(((s, p) => ReadingsPass.Symbol(s, p, hit), words["legend.reading-hit"]));
        if (readings.FirstOrDefault(r => !ReadingsPass.Shown(r)) is { } quiet) entries.Add(((s, p) => ReadingsPass.Symbol(s, p, quiet), words["legend.reading-quiet"]));
        if (zone.Profiles.Count > 0)
        {
            entries.Add(((s, p) =>
            {
                s.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), Paint.Solid(SheetStyle.SkyBlue, 0.35));
                s.Line(p - new SheetPoint(4, 0), p + new SheetPoint(4, 0), Paint.Line(SheetStyle.Wide, SheetStyle.Blue));
            }, words["detail.legend-curve"]));
        }

        if (zone.From is not null) entries.Add(((s, p) => s.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), Paint.Solid(SheetStyle.Probed)), words["detail.legend-zone"]));
        entries.Add(((s, p) => s.Rectangle(new SheetBox(p.X - 4, p.Y - 1.5, 8, 3), new Paint(s.Hatch("hatch-p2", 1.8, 0.35, SheetStyle.Vermilion, 45), SheetStyle.Rule, SheetStyle.Hair)), words["detail.legend-panel"]));
        if (PlanPlaces.DropsOver(plan, fixture).Count > 0) entries.Add((DropsPass.Symbol, words["legend.drop"]));
        if (fixture.Drains.Count > 0)
        {
            entries.Add(((s, p) =>
            {
                s.Circle(p, 1.1, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
                s.Circle(p, 0.35, Paint.Solid(SheetStyle.Ink));
            }, words["detail.legend-drain"]));
        }

        if (fixture.ValveEnd is not null) entries.Add((FrontStrip.ValveSymbol, words["detail.legend-valve"]));
        return entries;
    }
}
