using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>A fixture seen from above, its front unrolled and at the bottom: sections, panels hatched by the chance that the leak is
/// behind them, line drops, drains, valve end, the interval, and a tape along the front.</summary>
internal static class FrontStrip
{
    /// <summary>Fills for chances from small to great: paper to dark, so that grey print keeps the order.</summary>
    private static readonly (double From, string Id, double Pitch, double Width)[] Hatches =
        [(0.05, "hatch-p1", 3, 0.25), (0.2, "hatch-p2", 1.8, 0.35), (0.5, "hatch-p3", 1.1, 0.5)];

    /// <summary>Room over the case for the word at its back and the sections.</summary>
    private const double Head = 11;

    /// <summary>Height of the strip and the tape at a ruler's scale.</summary>
    public static double HeightOf(FrontRuler ruler) => Depth(ruler) + Head + 27;

    public static void Draw(SvgWriter svg, SheetPoint at, double width, FrontRuler ruler, Plan plan, LeakZone zone, Words words)
    {
        var f = ruler.Fixture;
        double depth = Depth(ruler), top = at.Y + Head, front = top + depth;
        double left = ruler.XFromLeft(ruler.From), right = ruler.XFromLeft(ruler.To);
        svg.Begin("case", "case", PlaceWords.Case(f));
        svg.Text(new(left, at.Y + SheetStyle.TextSmall), words["detail.back"], SheetStyle.SmallMuted);
        DrawPanels(svg, ruler, zone, words, top, front);
        svg.Line(new(left, top), new(right, top), Paint.Line(SheetStyle.Wide));
        svg.Line(new(left, front), new(right, front), Paint.Line(SheetStyle.Heavy));
        DrawEnd(svg, left, top, front, ruler.CutLeft);
        DrawEnd(svg, right, top, front, ruler.CutRight);
        DrawDropsAndDrains(svg, ruler, plan, top, front);
        DrawInterval(svg, ruler, zone, words, front + 3.5);
        DrawTape(svg, ruler, plan.Units, words, front + 16);
        svg.End();
    }

    private static double Depth(FrontRuler ruler) =>
        Math.Clamp(ruler.Length(FixtureShape.DepthAt(ruler.Fixture, ruler.Fixture.Front!.Length / 2)), 14, 60);

    private static void DrawPanels(SvgWriter svg, FrontRuler ruler, LeakZone zone, Words words, double top, double front)
    {
        var f = ruler.Fixture;
        var chances = zone.Panels.ToDictionary(p => p.Id, p => p.Probability);
        foreach (var panel in f.Panels)
        {
            if (ruler.Span(panel.From, panel.To) is not { } span) continue;
            var box = new SheetBox(span.Left, top, span.Right - span.Left, front - top);
            var chance = chances.GetValueOrDefault(panel.Id);
            svg.Begin("panel-" + panel.Id, "panel", words.Say("detail.panel-title", PlaceWords.PanelNumber(panel.Id), words.Chance(chance)));
            svg.Rectangle(box, new Paint(SheetStyle.Paper, SheetStyle.Rule, SheetStyle.Hair));
            foreach (var (from, id, pitch, width) in Hatches.Reverse())
            {
                if (chance < from) continue;
                svg.Rectangle(box, new Paint(svg.Hatch(id, pitch, width, SheetStyle.Vermilion, 45), SheetStyle.Rule, SheetStyle.Hair));
                break;
            }

            var middle = box.Middle;
            var name = SheetStyle.BodyBold;
            var text = chance >= 0.05 ? Short(chance, words) : "";
            var block = new SheetBox(middle.X - Math.Min(box.Width - 1, 18) / 2, middle.Y - 5.6, Math.Min(box.Width - 1, 18), text.Length > 0 ? 11 : 6.4);
            if (chance >= 0.05) svg.Rectangle(block, Paint.Solid(SheetStyle.Paper));
            var number = PlaceWords.PanelNumber(panel.Id);
            if (name.WidthOf(number) <= box.Width - 1) svg.Text(new(middle.X, middle.Y - 1), number, name, TextAnchor.Middle);
            if (SheetStyle.Small.WidthOf(text) <= box.Width - 1) svg.Text(new(middle.X, middle.Y + 3.8), text, SheetStyle.Small, TextAnchor.Middle);
            svg.End();
        }

        foreach (var section in f.Sections.Skip(1).Where(s => ruler.Shows(s.From)))
        {
            var x = ruler.X(section.From);
            svg.Line(new(x, top - 2.5), new(x, front), Paint.Line(SheetStyle.Medium));
        }

        if (f.Sections.Count < 2) return;
        foreach (var section in f.Sections)
        {
            if (ruler.Span(section.From, section.To) is not { } span) continue;
            var text = words.Say("place.section", section.Number);
            if (SheetStyle.Small.WidthOf(text) < span.Right - span.Left - 30 || span.Left > ruler.XFromLeft(ruler.From) + 30)
            {
                svg.Text(new((span.Left + span.Right) / 2, top - 2), SheetStyle.Small.Fit(text, span.Right - span.Left - 2), SheetStyle.Small, TextAnchor.Middle);
            }
        }
    }

    /// <summary>"7 in 10", short enough for a panel.</summary>
    private static string Short(double chance, Words words) =>
        chance >= 0.95 ? words["chance.short-high"] : chance < 0.085 ? words["chance.short-low"] : words.Say("chance.short", Numbers.Whole(chance * 10));

    private static void DrawEnd(SvgWriter svg, double x, double top, double front, bool cut)
    {
        if (!cut)
        {
            svg.Line(new(x, top), new(x, front), Paint.Line(SheetStyle.Wide));
            return;
        }

        // A break line: the case goes on.
        var middle = (top + front) / 2;
        svg.Polyline([new(x, top - 2), new(x, middle - 2), new(x - 1.5, middle - 0.7), new(x + 1.5, middle + 0.7), new(x, middle + 2), new(x, front + 2)], Paint.Line(SheetStyle.Narrow));
    }

    private static void DrawDropsAndDrains(SvgWriter svg, FrontRuler ruler, Plan plan, double top, double front)
    {
        var f = ruler.Fixture;
        foreach (var drain in f.Drains.Where(ruler.Shows))
        {
            svg.Circle(new(ruler.X(drain), front - 3), 1.1, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
            svg.Circle(new(ruler.X(drain), front - 3), 0.35, Paint.Solid(SheetStyle.Ink));
        }

        foreach (var (_, along, distance) in PlanPlaces.DropsOver(plan, f))
        {
            if (!ruler.Shows(along)) continue;
            DropsPass.Symbol(svg, new(ruler.X(along), Math.Clamp(front - ruler.Length(distance), top + 2, front - 2)));
        }

        if (f.ValveEnd is { } end)
        {
            var x = end == CaseEnd.Left ? ruler.XFromLeft(0) + 3 : ruler.XFromLeft(f.Front!.Length) - 3;
            if (x >= ruler.XFromLeft(ruler.From) && x <= ruler.XFromLeft(ruler.To)) ValveSymbol(svg, new(x, top + 3));
        }
    }

    /// <summary>Two triangles point to point, as valves are drawn.</summary>
    public static void ValveSymbol(SvgWriter svg, SheetPoint p)
    {
        svg.Polygon([p, p + new SheetPoint(-1.8, -1.1), p + new SheetPoint(-1.8, 1.1)], new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
        svg.Polygon([p, p + new SheetPoint(1.8, -1.1), p + new SheetPoint(1.8, 1.1)], new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
    }

    private static void DrawInterval(SvgWriter svg, FrontRuler ruler, LeakZone zone, Words words, double y)
    {
        if (zone is not { From: { } from, To: { } to, Center: { } center } || ruler.Span(from, to) is not { } span) return;
        svg.Begin("interval", "interval", words["detail.interval"]);
        ZonesPass.BarSymbol(svg, [new(span.Left, y), new(span.Right, y)]);
        if (ruler.Shows(center)) svg.Polygon([new(ruler.X(center), y - 0.4), new(ruler.X(center) - 1.3, y + 2.4), new(ruler.X(center) + 1.3, y + 2.4)], Paint.Solid(SheetStyle.Ink));
        var text = words.Say(ZoneNotes.IsDoubtful(zone) ? "detail.interval-text-if" : "detail.interval-text", Numbers.Whole(zone.Level * 10));
        double left = ruler.XFromLeft(ruler.From), right = ruler.XFromLeft(ruler.To);
        var lines = SheetStyle.Small.Wrap(text, Math.Max(right - left, 60));
        var half = lines.Max(SheetStyle.Small.WidthOf) / 2;
        var middle = Math.Clamp((span.Left + span.Right) / 2, left + half, Math.Max(left + half, right - half));
        foreach (var (i, line) in lines.Take(2).Index()) svg.Text(new(middle, y + 6.2 + (i * 4)), line, SheetStyle.Small, TextAnchor.Middle);
        svg.End();
    }

    /// <summary>A tape from the left end: a tick each foot or quarter metre, figures where there is room.</summary>
    private static void DrawTape(SvgWriter svg, FrontRuler ruler, LengthUnit units, Words words, double y)
    {
        double tick = units.IsCustomary() ? LengthUnit.Foot.InMetres() : 0.25, left = ruler.XFromLeft(ruler.From), right = ruler.XFromLeft(ruler.To);
        svg.Begin("tape", "tape", words["detail.tape"]);
        svg.Line(new(left, y), new(right, y), Paint.Line(SheetStyle.Medium));
        var style = SheetStyle.Small;
        var every = ruler.Length(tick) >= 12 ? 1 : ruler.Length(tick) >= 6 ? 2 : units.IsCustomary() ? 5 : 4;
        for (var i = (int)Math.Ceiling((ruler.From / tick) - 1e-9); i * tick <= ruler.To + 1e-9; i++)
        {
            var x = ruler.XFromLeft(i * tick);
            var named = i % every == 0;
            svg.Line(new(x, y), new(x, y + (named ? 2.4 : 1.4)), Paint.Line(SheetStyle.Narrow));
            if (named) svg.Text(new(x, y + 6), units.IsCustomary() ? Numbers.Whole(i) + "'" : Numbers.Fixed(i * tick, every * tick >= 0.99 ? 0 : 2), style, TextAnchor.Middle);
        }

        svg.Text(new(left, y + 11), words.Say("detail.tape-text", units.IsCustomary() ? "ft" : "m"), SheetStyle.SmallBold);
        svg.End();
    }
}
