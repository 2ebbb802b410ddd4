using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>Readings along a front against distance from the left end: a row for each air state with an axis of its own, for what fans
/// mix and what stands in still air can't be read off one; and one for the kick plates, behind which lies another air space than the
/// case's. In each row stand the fitted curve and its band.</summary>
internal static class ProfileChart
{
    private const double TitleRoom = 6;

    /// <summary>Above the axis, for what was over range.</summary>
    private const double OverRoom = 9;

    public static void Draw(SvgWriter svg, SheetBox box, FrontRuler ruler, LeakZone zone, IReadOnlyList<NetReading> readings, Words words)
    {
        var shown = readings.Where(r => r.Reading.Spot != Spot.Ceiling && r.Reading.Place.Along is { } a && ruler.Shows(a)).ToList();
        var curves = zone.Profiles.ToDictionary(p => new Row(p.Air, p.Base), p => p.Points.Where(c => ruler.Shows(c.Along)).OrderBy(c => ruler.X(c.Along)).ToList());
        var rows = shown.Select(Row.Of).Concat(curves.Keys).DefaultIfEmpty(new Row(AirState.FansOn, false)).Distinct().OrderBy(r => r.Air).ThenBy(r => r.Base).ToList();
        svg.Begin("profile", "profile", words["detail.profile"]);
        if (zone is { From: { } from, To: { } to } && ruler.Span(from, to) is { } span)
        {
            svg.Rectangle(new SheetBox(span.Left, box.Y, span.Right - span.Left, box.Height + 8), Paint.Solid(SheetStyle.Probed));
        }

        var height = box.Height / rows.Count;
        foreach (var (i, row) in rows.Index())
        {
            var place = new SheetBox(box.X, box.Y + (i * height) + TitleRoom, box.Width, height - TitleRoom - (i + 1 < rows.Count ? 4 : 0));
            DrawRow(svg, place, ruler, row, [.. shown.Where(r => Row.Of(r) == row)], curves.GetValueOrDefault(row, []), words);
        }

        svg.End();
    }

    private static void DrawRow(
        SvgWriter svg, SheetBox place, FrontRuler ruler, Row row, IReadOnlyList<NetReading> readings, List<ProfilePoint> profile, Words words)
    {
        var over = readings.Any(r => r.Bound == ReadingBound.AtLeast);
        var box = over ? new SheetBox(place.X, place.Y + OverRoom, place.Width, place.Height - OverRoom) : place;
        // A number over range only says "more": it stands above the axis with an arrow and must not flatten all others.
        var action = readings.Select(r => r.ActionPpm).DefaultIfEmpty(2).Max();
        var told = readings.Where(r => r.Bound != ReadingBound.AtLeast).Select(r => r.NetPpm).Concat(profile.Select(p => p.Ppm)).Append(action).Max();
        // A wide band runs out of the chart rather than press readings and curve flat.
        var top = profile.Select(p => Math.Min(p.HighPpm, 2 * told)).Append(told).Max();
        var axis = new ChartAxis(0, top * 1.08, box.Bottom, box.Y, place.Height > 80 ? 5 : 3);
        var labels = new LabelPlacer(place);
        var air = words["air." + row.Air.Kebab()];
        svg.Begin($"profile-{row.Air.Kebab()}{(row.Base ? "-base" : "")}", "profile-row", air);
        svg.Text(new(place.X, place.Y - 2), words.Say(row.Base ? "detail.axis-base" : "detail.axis", air) + (profile.Count > 0 && row.Air != AirState.FansOn ? words["detail.curve-still"] : ""), SheetStyle.SmallBold);
        DrawGrid(svg, box, axis);
        DrawCurve(svg, ruler, axis, profile);
        if (readings.Count > 0) DrawAction(svg, box, axis, action, words, labels);
        foreach (var r in readings) DrawReading(svg, ruler, axis, r, labels);
        labels.Place();
        labels.Draw(svg);
        svg.End();
    }

    private static void DrawGrid(SvgWriter svg, SheetBox box, ChartAxis axis)
    {
        foreach (var tick in axis.Ticks)
        {
            var y = axis.At(tick);
            svg.Line(new(box.X, y), new(box.Right, y), Paint.Line(SheetStyle.Hair, SheetStyle.Faint));
            svg.Text(new(box.X - 1.5, y + (SheetStyle.TextSmall / 2)), axis.Text(tick), SheetStyle.Small, TextAnchor.End);
        }

        svg.Line(new(box.X, box.Y), new(box.X, box.Bottom), Paint.Line(SheetStyle.Narrow));
        svg.Line(new(box.X, box.Bottom), new(box.Right, box.Bottom), Paint.Line(SheetStyle.Narrow));
    }

    private static void DrawCurve(SvgWriter svg, FrontRuler ruler, ChartAxis axis, List<ProfilePoint> profile)
    {
        if (profile.Count < 2) return;
        SheetPoint At(ProfilePoint p, double ppm) => new(ruler.X(p.Along), axis.At(Math.Clamp(ppm, axis.Low, axis.High)));
        svg.Polygon([.. profile.Select(p => At(p, p.HighPpm)), .. profile.AsEnumerable().Reverse().Select(p => At(p, p.LowPpm))], Paint.Solid(SheetStyle.SkyBlue, 0.35));
        svg.Polyline(profile.Select(p => At(p, p.Ppm)), Paint.Line(SheetStyle.Wide, SheetStyle.Blue));
    }

    private static void DrawAction(SvgWriter svg, SheetBox box, ChartAxis axis, double action, Words words, LabelPlacer labels)
    {
        var y = axis.At(action);
        svg.Line(new(box.X, y), new(box.Right, y), Paint.Line(SheetStyle.Medium, SheetStyle.Ink, "2 1"));
        var label = new PlanLabel
        {
            Lines = [words.Say("detail.action", Numbers.Ppm(action))], Style = SheetStyle.Small, Anchor = new(box.Right, y), Priority = LabelPriority.Zone, Layer = "labels-action",
        };
        var x = box.Right - (label.Width / 2) - 0.5;
        // At the right end above the line, else farther left.
        labels.Add(label with { Spots = [.. Enumerable.Range(0, 8).Select(i => new LabelSpot(new(x - (20 * i), y - 2.6)))] });
    }

    private static void DrawReading(SvgWriter svg, FrontRuler ruler, ChartAxis axis, NetReading r, LabelPlacer labels)
    {
        var shown = ReadingsPass.Shown(r);
        var ppm = shown ? r.NetPpm : Math.Max(0, Math.Min(r.NetPpm, r.DetectionPpm));
        var at = new SheetPoint(ruler.X(r.Reading.Place.Along!.Value), axis.At(Math.Clamp(ppm, axis.Low, axis.High)));
        if (r.Bound == ReadingBound.AtLeast)
        {
            // Over range: the value is at least this; it stands above the axis and an arrow points to where it may lie.
            at = at with { Y = axis.At(axis.High) - 3 };
            svg.Line(at, at - new SheetPoint(0, 5), Paint.Line(SheetStyle.Medium));
            svg.Polyline([at + new SheetPoint(-1, -3.6), at + new SheetPoint(0, -5), at + new SheetPoint(1, -3.6)], Paint.Line(SheetStyle.Medium));
            labels.Space.Block(new SheetBox(at.X - 1, at.Y - 5, 2, 5));
        }

        if (r.Reading.Place.OnBack) svg.Polygon([at + new SheetPoint(0, -1.4), at + new SheetPoint(1.2, 0.9), at + new SheetPoint(-1.2, 0.9)], new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Medium));
        else ReadingsPass.Symbol(svg, at, r);
        labels.Space.Block(new SheetBox(at.X - 1, at.Y - 1, 2, 2));
        if (!shown) return;
        var label = new PlanLabel
        {
            Lines = [ReadingsPass.Text(r)], Style = r.IsHit ? SheetStyle.SmallBold : SheetStyle.Small, Anchor = at, Priority = LabelPriority.Reading + (r.NetPpm / 1e6), Layer = "labels-readings",
        };
        labels.Add(label with { Spots = [.. LabelSpots.Around(label, 1.6), .. LabelSpots.Rings(label, 3.5, 6)] });
    }

    /// <summary>What shares an axis: the air state, and whether the probe was at the kick plate.</summary>
    private readonly record struct Row(AirState Air, bool Base)
    {
        public static Row Of(NetReading r) => new(r.Reading.Air, r.Reading.Spot == Spot.KickPlate);
    }
}
