using System.Globalization;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>The plots of the report.</summary>
internal static class Plots
{
    private static readonly (Method Method, string Name)[] Methods =
        [(Method.StoreMap, "leak zone"), (Method.Habit, "highest reading"), (Method.Kriging, "kriging's maximum")];

    private static readonly Stage[] Stages = [Stage.Coarse, Stage.CloseIn, Stage.FansOff, Stage.Continuous];

    /// <summary>File names and pictures.</summary>
    public static IEnumerable<(string Name, string Svg)> All(IReadOnlyList<Outcome> outcomes)
    {
        var singles = outcomes.Where(o => o.Store.Case == StoreCase.OneLeak && o.Detectable).ToList();
        yield return ("error.svg", Error(singles));
        yield return ("coverage.svg", Coverage(singles));
        yield return ("reliability.svg", Reliable([.. outcomes.SelectMany(o => o.Claims)]));
    }

    private static string Error(List<Outcome> singles)
    {
        const double most = 10, left = 150, scale = 52, top = 78, row = 17;
        var plot = new SvgPlot(720, 500, "Feet from the place named to the leak, simulated single leaks");
        plot.Key(24, 48, Methods.Select((m, i) => (m.Name, SvgPlot.Colours[i])));
        plot.Text(388, 48, "dot: median; bar: to the 90th percentile; |: goals");
        var y = top;
        foreach (var roughness in new[] { Roughness.Smooth, Roughness.Rough })
        {
            plot.Text(16, y, roughness.ToString(), bold: true);
            var first = y + 6;
            foreach (var stage in Stages)
            {
                plot.Text(left - 12, y + 14 + row, Report.Name(stage), "end");
                for (var m = 0; m < Methods.Length; m++)
                {
                    double[] errors = [.. singles.Where(o => o.Store.Roughness == roughness).SelectMany(o => o.Places).Where(p => p.Stage == stage && p.Method == Methods[m].Method).Select(p => p.ErrorFeet)];
                    if (errors.Length == 0) continue;
                    var at = y + 10 + (m * row * 0.75);
                    var (median, ninetieth) = (Stats.Quantile(errors, 0.5), Stats.Quantile(errors, 0.9));
                    plot.Line(left + (scale * Math.Min(median, most)), at, left + (scale * Math.Min(ninetieth, most)), at, SvgPlot.Colours[m], 3);
                    plot.Dot(left + (scale * Math.Min(median, most)), at, SvgPlot.Colours[m]);
                    if (ninetieth > most) plot.Text(left + (scale * most) + 4, at + 4, string.Create(CultureInfo.InvariantCulture, $"→ {Cells.One(ninetieth)}"), size: 10);
                }

                var goal = StageGoal.Of(stage, roughness);
                foreach (var feet in new[] { goal.MedianFeet, goal.NinetiethFeet }) plot.Line(left + (scale * feet), y + 3, left + (scale * feet), y + 17, "#222222", 2);
                y += 45;
            }

            for (var feet = 0; feet <= most; feet += 2)
            {
                plot.Line(left + (scale * feet), first, left + (scale * feet), y, SvgPlot.Pale);
                plot.Text(left + (scale * feet), y + 12, feet.ToString(CultureInfo.InvariantCulture), "middle", 11);
            }

            y += 36;
        }

        return plot.ToString();
    }

    private static string Coverage(List<Outcome> singles)
    {
        const double left = 190, scale = 480, top = 70, row = 26;
        var plot = new SvgPlot(720, top + (row * Groups.All.Count) + 40, "How often the 90 % interval holds the leak, by subgroup, simulated");
        double X(double share) => left + (scale * (share - 0.4) / 0.6);
        var bottom = top + (row * Groups.All.Count);
        plot.Key(24, 48, Stages.Select((s, i) => (Report.Name(s), SvgPlot.Colours[i])));
        plot.Box(X(0.85), top - 8, X(0.95) - X(0.85), bottom - top, "#eef4ee");
        for (var share = 0.4; share < 1.01; share += 0.1)
        {
            plot.Line(X(share), top - 8, X(share), bottom - 8, SvgPlot.Pale);
            plot.Text(X(share), bottom + 8, string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} %"), "middle", 11);
        }

        for (var g = 0; g < Groups.All.Count; g++)
        {
            var group = singles.Where(Groups.All[g].Holds).ToList();
            plot.Text(left - 40, top + (g * row) + 8, Groups.All[g].Name, "end");
            plot.Text(left - 8, top + (g * row) + 8, group.Count.ToString(CultureInfo.InvariantCulture), "end", 10);
            for (var s = 0; s < Stages.Length; s++)
            {
                var covered = Stats.Share(group.SelectMany(o => o.Zones).Where(z => z.Stage == Stages[s]).Select(z => z.Covered));
                if (covered.Count == 0) continue;
                var at = top + (g * row) - 3 + (s * 5.5);
                plot.Line(X(Math.Max(0.4, covered.Low)), at, X(Math.Max(0.4, covered.High)), at, SvgPlot.Colours[s], 1.5);
                plot.Dot(X(Math.Max(0.4, covered.Value)), at, SvgPlot.Colours[s], 3);
            }
        }

        plot.Text(left, bottom + 28, "bars: 90 % bootstrap intervals; band: goal 85 to 95 %; small numbers: detectable leaks", size: 11);
        return plot.ToString();
    }

    private static string Reliable(List<Claim> claims)
    {
        const double left = 90, top = 72, side = 400;
        var plot = new SvgPlot(560, 552, "Stated probability and how often it came true, simulated");
        double X(double share) => left + (side * share);
        double Y(double share) => top + (side * (1 - share));
        for (var i = 0; i <= 5; i++)
        {
            plot.Line(X(i / 5.0), Y(0), X(i / 5.0), Y(1), SvgPlot.Pale);
            plot.Line(X(0), Y(i / 5.0), X(1), Y(i / 5.0), SvgPlot.Pale);
            plot.Text(X(i / 5.0), Y(0) + 16, string.Create(CultureInfo.InvariantCulture, $"{20 * i} %"), "middle", 11);
            plot.Text(X(0) - 6, Y(i / 5.0) + 4, string.Create(CultureInfo.InvariantCulture, $"{20 * i} %"), "end", 11);
        }

        plot.Line(X(0), Y(0), X(1), Y(1), SvgPlot.Grey);
        plot.Line(X(0), Y(0.05), X(0.95), Y(1), SvgPlot.Grey, 1, dashed: true);
        plot.Line(X(0.05), Y(0), X(1), Y(0.95), SvgPlot.Grey, 1, dashed: true);
        foreach (var panel in new[] { false, true })
        {
            var colour = SvgPlot.Colours[panel ? 1 : 0];
            ReliabilityBin? before = null;
            foreach (var bin in Reliability.Bins(claims.Where(c => c.Panel == panel)))
            {
                if (before is { } b) plot.Line(X(b.Stated), Y(b.True.Value), X(bin.Stated), Y(bin.True.Value), colour, 1.5);
                plot.Line(X(bin.Stated), Y(bin.True.Low), X(bin.Stated), Y(bin.True.High), colour, 1);
                plot.Dot(X(bin.Stated), Y(bin.True.Value), colour, 3.5);
                before = bin;
            }
        }

        plot.Text(X(0.5), Y(0) + 36, "stated", "middle");
        plot.Text(X(0), top - 10, "came true", "middle");
        plot.Key(left, 540, [("zones", SvgPlot.Colours[0]), ("panels", SvgPlot.Colours[1])]);
        return plot.ToString();
    }
}
