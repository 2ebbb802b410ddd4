using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>One zone or fixture through the visits: peaks against true dates, the slope, and repairs as upright lines; without a title where it
/// stands by the chart.</summary>
internal sealed class TrendChart(string? title, IReadOnlyList<ZoneVisit> visits, ZoneTrend? trend, IReadOnlyList<ServiceFinding> findings, Words words) : FlowItem
{
    /// <summary>Height of a chart.</summary>
    public const double ChartHeight = 56;
    private const double TitleRoom = 9;
    private const double AxisRoom = 8;

    public override double Height(double width) => ChartHeight;

    public override void Draw(SvgWriter svg, SheetPoint at, double width)
    {
        svg.Begin("trend", "trend", title);
        if (title is not null) svg.Text(new(at.X, at.Y + SheetStyle.TextSmall), SheetStyle.SmallBold.Fit(title, width), SheetStyle.SmallBold);
        var box = new SheetBox(at.X + AxisRoom, at.Y + TitleRoom, width - AxisRoom - 12, ChartHeight - TitleRoom - 13);
        var dates = visits.Select(v => v.Date.DayNumber).ToList();
        double first = dates.Min(), last = Math.Max(dates.Max(), first + 1);
        double X(double day) => box.X + 5 + ((box.Width - 10) * (day - first) / (last - first));
        var peaks = visits.Where(v => v.PeakPpm is not null).ToList();
        var axis = new ChartAxis(0, Math.Max(1, peaks.Count > 0 ? peaks.Max(v => v.PeakPpm!.Value) : 1) * 1.15, box.Bottom, box.Y, 4);
        var labels = new LabelPlacer(new SheetBox(at.X, at.Y + 4, width, ChartHeight - 12));
        DrawGrid(svg, box, axis);
        DrawDates(svg, box, X);
        DrawRepairs(svg, box, X, first, last, labels);
        if (trend is not null && peaks.Count > 1) DrawSlope(svg, box, axis, X, peaks, trend);
        foreach (var (a, b) in peaks.Zip(peaks.Skip(1)))
        {
            // From one limit to another nothing rises or falls.
            if (a.Below && b.Below) continue;
            svg.Line(new(X(a.Date.DayNumber), axis.At(a.PeakPpm!.Value)), new(X(b.Date.DayNumber), axis.At(b.PeakPpm!.Value)), Paint.Line(SheetStyle.Medium, SheetStyle.Blue, a.Below || b.Below ? "1 1" : null));
        }

        foreach (var v in peaks) DrawVisit(svg, v, new SheetPoint(X(v.Date.DayNumber), axis.At(v.PeakPpm!.Value)), labels);
        labels.Place();
        labels.Draw(svg);
        svg.End();
    }

    private void DrawGrid(SvgWriter svg, SheetBox box, ChartAxis axis)
    {
        foreach (var tick in axis.Ticks)
        {
            var y = axis.At(tick);
            svg.Line(new(box.X, y), new(box.Right, y), Paint.Line(SheetStyle.Hair, SheetStyle.Faint));
            svg.Text(new(box.X - 1.2, y + (SheetStyle.TextSmall / 2)), axis.Text(tick), SheetStyle.Small, TextAnchor.End);
        }

        svg.Text(new(box.X - AxisRoom, box.Y - 2.2), words["chart.ppm"], SheetStyle.SmallMuted);
        svg.Line(new(box.X, box.Bottom), new(box.Right, box.Bottom), Paint.Line(SheetStyle.Narrow));
    }

    private void DrawDates(SvgWriter svg, SheetBox box, Func<double, double> x)
    {
        var free = double.NegativeInfinity;
        foreach (var visit in visits)
        {
            var at = x(visit.Date.DayNumber);
            svg.Line(new(at, box.Bottom), new(at, box.Bottom + 1.2), Paint.Line(SheetStyle.Narrow));
            var text = Days.Of(visit.Date)[2..];
            var half = SheetStyle.Small.WidthOf(text) / 2;
            if (at - half < free) continue;
            svg.Text(new(at, box.Bottom + 4.4), text, SheetStyle.Small, TextAnchor.Middle);
            free = at + half + 1;
            if (visit.PeakPpm is null) svg.Text(new(at, box.Bottom + 8.4), SheetStyle.SmallMuted.Fit(words["compare.not-probed"], 2 * half), SheetStyle.SmallMuted, TextAnchor.Middle);
        }
    }

    private void DrawRepairs(SvgWriter svg, SheetBox box, Func<double, double> x, double first, double last, LabelPlacer labels)
    {
        foreach (var finding in findings)
        {
            if (finding.Repaired is not { } day || day.DayNumber < first || day.DayNumber > last) continue;
            var at = x(day.DayNumber);
            svg.Line(new(at, box.Y), new(at, box.Bottom), Paint.Line(SheetStyle.Medium, SheetStyle.Ink, "1.6 0.8"));
            var label = new PlanLabel { Lines = [words["compare.repaired"]], Style = SheetStyle.Small, Anchor = new(at, box.Y), Priority = LabelPriority.Zone, Layer = "labels-repairs" };
            labels.Add(label with { Spots = [new(new(at, box.Y - 2.5)), new(new(at + (label.Width / 2) + 1, box.Y + 2)), new(new(at - (label.Width / 2) - 1, box.Y + 2)), new(new(at, box.Y + 6))] });
        }
    }

    /// <summary>Sen's slope through the middle of the visits.</summary>
    private static void DrawSlope(SvgWriter svg, SheetBox box, ChartAxis axis, Func<double, double> x, List<ZoneVisit> peaks, ZoneTrend trend)
    {
        double Median(IEnumerable<double> values)
        {
            var sorted = values.Order().ToList();
            return (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
        }

        double day = Median(peaks.Select(v => (double)v.Date.DayNumber)), ppm = Median(peaks.Select(v => v.PeakPpm!.Value));
        SheetPoint At(double d) => new(x(d), axis.At(Math.Clamp(ppm + (trend.SlopePerMonth * (d - day) / 30), axis.Low, axis.High)));
        svg.Line(At(peaks[0].Date.DayNumber), At(peaks[^1].Date.DayNumber), Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, "2 1"));
    }

    private static void DrawVisit(SvgWriter svg, ZoneVisit visit, SheetPoint at, LabelPlacer labels)
    {
        svg.Circle(at, 1.1, new Paint(visit.Hit ? SheetStyle.Ink : SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Medium));
        labels.Space.Block(new SheetBox(at.X - 1.1, at.Y - 1.1, 2.2, 2.2));
        var label = new PlanLabel { Lines = [PeakText.Of(visit)!], Style = visit.Hit ? SheetStyle.SmallBold : SheetStyle.Small, Anchor = at, Priority = LabelPriority.Reading, Layer = "labels-peaks" };
        labels.Add(label with { Spots = [new(at - new SheetPoint(0, 3.6)), .. LabelSpots.Around(label, 1.5), .. LabelSpots.Rings(label, 3, 5)] });
    }
}
