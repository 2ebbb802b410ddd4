using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>Leak zones on the plan: a bar along the stretch of front, or a ring in a walk-in, and a letter that the call-out repeats.
/// Gas whose source is elsewhere gets a dashed ring.</summary>
internal static class ZonesPass
{
    private static readonly TextStyle BadgeStyle = new(SheetStyle.TextMedium, true, SheetStyle.Paper);

    /// <summary>Draws what a visit located.</summary>
    /// <param name="d">The plan.</param>
    /// <param name="located">What was located.</param>
    /// <param name="marks">Letters that hold through several visits: what has none there is left out; null for those of this visit alone.</param>
    public static void Draw(PlanDrawing d, LocateResult located, CompareMarks? marks = null)
    {
        d.Svg.Begin("zones", "zones", d.Words["plan.zones"]);
        for (var i = 0; i < located.Zones.Count; i++)
        {
            if ((marks is null ? LeakLetters.Of(i) : marks.Of(located.Zones[i])) is { } letter) DrawOne(d, located.Zones[i], letter);
        }

        for (var i = 0; i < located.Elsewhere.Count; i++)
        {
            var source = located.Elsewhere[i];
            if (source.At is not { } at || (marks is null ? LeakLetters.Of(located.Zones.Count + i) : marks.Of(source)) is not { } letter) continue;
            d.Svg.Begin($"elsewhere-{letter}", "elsewhere", source.Look);
            var anchor = Source(d, at);
            d.Svg.End();
            Badge(d, letter, anchor, null);
            d.Uses(LegendSymbol.ElsewhereMark);
        }

        d.Svg.End();
    }

    /// <summary>Draws one zone under a letter; nothing when its fixture is not on the plan.</summary>
    public static void DrawOne(PlanDrawing d, LeakZone zone, string letter)
    {
        if (d.Plan.FindFixture(zone.Fixture) is not { } fixture) return;
        d.Svg.Begin($"zone-{letter}", "zone", d.Words.Say("plan.zone", letter, fixture.Tag));
        var anchor = fixture.Front is not null && zone.From is { } from && zone.To is { } to
            ? Bar(d, fixture, from, to)
            : Ring(d, zone.At, zone.Radius ?? 0.5, Whole);
        d.Svg.End();
        var outward = fixture.Front is not null && zone.Center is { } center ? d.To.Direction(fixture.OutwardAt(center)) : (SheetPoint?)null;
        Badge(d, letter, anchor, outward);
        d.Uses(LegendSymbol.Zone);
    }

    /// <summary>The badge as a legend or a call-out shows it.</summary>
    public static void BadgeSymbol(SvgWriter svg, SheetPoint middle, string letter)
    {
        var label = BadgeLabel(letter, middle);
        label.Draw(svg, new LabelSpot(middle));
    }

    private static PlanLabel BadgeLabel(string letter, SheetPoint anchor) => new()
    {
        Lines = [letter], Style = BadgeStyle, Anchor = anchor, Priority = LabelPriority.Zone, Layer = "labels-zones",
        Ground = SheetStyle.Ink, Border = SheetStyle.Ink,
    };

    /// <summary>Asks for a place for a letter beside its mark.</summary>
    public static void Badge(PlanDrawing d, string letter, SheetPoint anchor, SheetPoint? outward)
    {
        var label = BadgeLabel(letter, anchor);
        // A leader from every letter: a short bar among readings is hard to find.
        var beside = outward is { } o ? LabelSpots.Outward(label, o, 5, 3).Select(s => s with { Leader = true }) : [];
        d.Labels.Add(label with { Spots = [.. beside, .. LabelSpots.Rings(label, 4, 7, 11, 16, 24)] });
    }

    private static SheetPoint Bar(PlanDrawing d, Fixture fixture, double from, double to)
    {
        var points = Along(d, fixture, from, to);
        BarSymbol(d.Svg, points);
        foreach (var (a, b) in points.Zip(points.Skip(1))) d.Labels.Space.Spare(a, b);
        return points[points.Count / 2];
    }

    /// <summary>The line of a bar: beside a stretch of a fixture's front, which it must have.</summary>
    public static List<SheetPoint> Along(PlanDrawing d, Fixture fixture, double from, double to)
    {
        const double Offset = 2.2;
        var steps = Math.Max(1, (int)Math.Ceiling((to - from) / 0.25));
        return [.. Enumerable.Range(0, steps + 1)
            .Select(i => from + ((to - from) * i / steps))
            .Select(along => d.To.Point(fixture.Front!.PointAt(along)) + (d.To.Direction(fixture.OutwardAt(along)) * Offset))];
    }

    public static void BarSymbol(SvgWriter svg, IReadOnlyList<SheetPoint> points)
    {
        // End stops and an edge of ink keep the mark in grey print, a white one keeps it off a dark field.
        var stops = new[] { Stop(points[0], points[1]), Stop(points[^1], points[^2]) };
        foreach (var stop in stops) svg.Polyline(stop, Paint.Line(1.7, SheetStyle.Paper));
        svg.Polyline(points, Paint.Line(3.3, SheetStyle.Paper));
        foreach (var stop in stops) svg.Polyline(stop, Paint.Line(SheetStyle.Heavy, SheetStyle.Ink));
        svg.Polyline(points, Paint.Line(2.4, SheetStyle.Ink));
        svg.Polyline(points, Paint.Line(1.4, SheetStyle.Vermilion));
    }

    // A short line across the end of a bar.
    private static SheetPoint[] Stop(SheetPoint end, SheetPoint inner)
    {
        const double HalfLength = 2.2;
        var along = (end - inner) * (HalfLength / Math.Max(end.DistanceTo(inner), 1e-9));
        var across = new SheetPoint(-along.Y, along.X);
        return [end + across, end - across];
    }

    /// <summary>Marks a source outside the cases on the plan.</summary>
    /// <returns>Where its letter hangs.</returns>
    public static SheetPoint Source(PlanDrawing d, PlanPoint at) => Ring(d, at, 0.5, SourceSymbol);

    /// <summary>A source outside the cases: a dashed ring.</summary>
    public static void SourceSymbol(SvgWriter svg, SheetPoint centre, double radius) => Ring(svg, centre, radius, "1.2 0.8");

    private static void Whole(SvgWriter svg, SheetPoint centre, double radius) => Ring(svg, centre, radius, null);

    private static void Ring(SvgWriter svg, SheetPoint centre, double radius, string? dash)
    {
        svg.Circle(centre, radius, Paint.Line(2.4, SheetStyle.Paper));
        svg.Circle(centre, radius, Paint.Line(1.4, SheetStyle.Ink, dash));
        svg.Circle(centre, radius, Paint.Line(0.8, SheetStyle.Vermilion, dash));
    }

    // The sides of an octagon: a label on any of them would hide a part of the ring.
    private static void SpareRing(LabelSpace space, SheetPoint centre, double radius)
    {
        SheetPoint Corner(int i) => centre + new SheetPoint(radius * Math.Cos(i * Math.PI / 4), radius * Math.Sin(i * Math.PI / 4));
        for (var i = 0; i < 8; i++) space.Spare(Corner(i), Corner(i + 1));
    }

    private static SheetPoint Ring(PlanDrawing d, PlanPoint at, double radiusMetres, Action<SvgWriter, SheetPoint, double> draw)
    {
        var centre = d.To.Point(at);
        var radius = Math.Max(2, d.To.Length(radiusMetres));
        draw(d.Svg, centre, radius);
        SpareRing(d.Labels.Space, centre, radius);
        return centre + new SheetPoint(radius * 0.7, -radius * 0.7);
    }
}
