using System.Globalization;
using System.Text;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>Writes the accuracy report.</summary>
internal sealed class Report
{
    private static readonly Stage[] Stages = [Stage.Coarse, Stage.CloseIn, Stage.FansOff, Stage.Continuous];
    private static readonly Method[] Methods = [Method.StoreMap, Method.Habit, Method.Kriging, Method.FixtureCentre];

    private readonly IReadOnlyList<Outcome> all;
    private readonly List<Outcome> singles;
    private readonly StringBuilder text = new();

    private Report(IReadOnlyList<Outcome> all)
    {
        this.all = all;
        singles = [.. all.Where(o => o.Store.Case == StoreCase.OneLeak && o.Detectable)];
    }

    /// <summary>The report as Markdown.</summary>
    public static string Write(IReadOnlyList<Outcome> outcomes, string introduction)
    {
        var report = new Report(outcomes);
        report.text.Append(introduction);
        report.Place();
        report.Knowing();
        report.Honesty();
        report.Use();
        report.Advice();
        report.BySubgroup();
        report.Reliable();
        report.Speed();
        return report.text.ToString();
    }

    /// <summary>Name of a stage for people.</summary>
    public static string Name(Stage stage) => stage switch
    {
        Stage.Coarse => "coarse, fans on",
        Stage.CloseIn => "close-in, fans on",
        Stage.FansOff => "fans off, 2 ft",
        _ => "continuous log",
    };

    private static string Name(Method method) => method switch
    {
        Method.StoreMap => "**leak zone**",
        Method.Habit => "highest reading",
        Method.Kriging => "kriging's maximum",
        _ => "fixture centre",
    };

    private void Line(string line = "") => text.Append(line).Append('\n');

    private void Place()
    {
        Line("## Place of single leaks");
        Line();
        Line("Detectable single leaks. Error: feet from the place named first to the leak, on whichever fixture; a leak with no place named counts as endlessly far.");
        Line();
        foreach (var roughness in new[] { Roughness.Smooth, Roughness.Rough })
        {
            var group = singles.Where(o => o.Store.Roughness == roughness).ToList();
            Line($"### {roughness}");
            Line();
            Line("| stage | method | n | error median | 90th | right fixture | panels opened | found in 2 |");
            Line("|---|---|---|---|---|---|---|---|");
            foreach (var stage in Stages)
            {
                foreach (var method in Methods) PlaceRow(group, stage, method);
                var goal = StageGoal.Of(stage, roughness);
                var own = Answers(group, stage, Method.StoreMap);
                Line(string.Create(CultureInfo.InvariantCulture, $"| | goal | | ≤ {goal.MedianFeet} : {Cells.AtMost(Stats.MedianOf(own.Select(a => a.ErrorFeet)), goal.MedianFeet)} | ≤ {goal.NinetiethFeet} : {Cells.AtMost(Stats.NinetiethOf(own.Select(a => a.ErrorFeet)), goal.NinetiethFeet)} | ≥ {100 * StageGoal.RightFixture(roughness)} % : {Cells.AtLeast(Stats.Share(own.Select(a => a.RightFixture)), StageGoal.RightFixture(roughness))} | {(goal.Panels is { } panels ? $"≤ {panels.ToString(CultureInfo.InvariantCulture)} : {Cells.AtMost(Panels(own), panels)}" : "–")} | |"));
            }

            Line();
        }
    }

    private void PlaceRow(List<Outcome> group, Stage stage, Method method)
    {
        var own = Answers(group, stage, method);
        Line($"| {(method == Method.StoreMap ? Name(stage) : string.Empty)} | {Name(method)} | {own.Count} | {Cells.Feet(Stats.MedianOf(own.Select(a => a.ErrorFeet)))} | {Cells.Feet(Stats.NinetiethOf(own.Select(a => a.ErrorFeet)))} | {Cells.Percent(Stats.Share(own.Select(a => a.RightFixture)))} | {Cells.Plain(Panels(own))} | {Cells.Percent(Stats.Share(own.Where(a => a.PanelsOpened is not null).Select(a => a.PanelsOpened <= 2)))} |");
    }

    private static List<PlaceAnswer> Answers(IEnumerable<Outcome> group, Stage stage, Method method) =>
        [.. group.SelectMany(o => o.Places).Where(p => p.Stage == stage && p.Method == method)];

    private static Estimate Panels(IEnumerable<PlaceAnswer> answers) =>
        Stats.MeanOf(answers.Where(a => a.PanelsOpened is not null).Select(a => (double)a.PanelsOpened!.Value));

    private void Knowing()
    {
        var asked = singles.Where(o => o.Knowing.Count > 0).ToList();
        if (asked.Count == 0) return;
        Line("## Beside an inference that knows every parameter");
        Line();
        Line("Detectable single leaks in cases. The rival knows more than any technician can: the air of the very visit second by second, the kind of leak, the line-up, that the leak lies within 8 ft, the size of every noise; not the place, the strength, or the noise itself. The goal is at most 1.4 times its median error.");
        Line();
        Line("| stage | stores | n | leak zone, median ft | knowing all, median ft | ratio | verdict | leak zone, 90th | knowing all, 90th | its 90 % interval holds the leak | its width |");
        Line("|---|---|---|---|---|---|---|---|---|---|---|");
        foreach (var stage in Stages)
        {
            foreach (var (name, holds) in Groups.All.Take(3))
            {
                var group = asked.Where(o => holds(o) && o.Knowing.Any(k => k.Stage == stage)).ToList();
                if (group.Count == 0) continue;
                var knowing = group.Select(o => o.Knowing.First(k => k.Stage == stage)).ToList();
                var own = group.Select(o => o.Places.First(p => p.Stage == stage && p.Method == Method.StoreMap).ErrorFeet).ToList();
                var ratio = Stats.RatioOfMedians(own, [.. knowing.Select(k => k.ErrorFeet)]);
                Line($"| {Name(stage)} | {name} | {group.Count} | {Cells.Feet(Stats.MedianOf(own))} | {Cells.Feet(Stats.MedianOf(knowing.Select(k => k.ErrorFeet)))} | {Cells.Plain(ratio)} | {Cells.AtMost(ratio, 1.4)} | {Cells.Feet(Stats.NinetiethOf(own))} | {Cells.Feet(Stats.NinetiethOf(knowing.Select(k => k.ErrorFeet)))} | {Cells.Percent(Stats.Share(knowing.Select(k => k.Covered)))} | {Cells.Feet(Stats.MedianOf(knowing.Select(k => k.WidthFeet)))} |");
            }
        }

        Line();
    }

    private void Honesty()
    {
        Line("## Honesty of intervals");
        Line();
        Line("Detectable single leaks with a zone on their own fixture. The goal for coverage is 87 to 93 % overall; for the median width 5 ft (8 on doors), 3.5 ft, 1.5 ft.");
        Line();
        Line("| stage | stores | n | 90 % interval holds the leak | verdict | shortest half holds it | width median, ft | doors | others |");
        Line("|---|---|---|---|---|---|---|---|---|");
        foreach (var stage in Stages)
        {
            foreach (var (name, holds) in Groups.All.Take(3))
            {
                var group = singles.Where(holds).ToList();
                var zones = group.SelectMany(o => o.Zones).Where(z => z.Stage == stage).ToList();
                var coverage = Stats.Share(zones.Select(z => z.Covered));
                var doors = group.Where(o => Groups.Kind(o) == FixtureKind.DoorCase).SelectMany(o => o.Zones).Where(z => z.Stage == stage);
                var others = group.Where(o => Groups.Kind(o) is not (FixtureKind.DoorCase or FixtureKind.WalkIn)).SelectMany(o => o.Zones).Where(z => z.Stage == stage);
                Line($"| {Name(stage)} | {name} | {zones.Count} | {Cells.Percent(coverage)} | {Cells.Verdict(coverage, 0.87, 0.93)} | {Cells.Percent(Stats.Share(zones.Where(z => z.HalfCovered is not null).Select(z => z.HalfCovered == true)))} | {Width(zones)} | {Width(doors)} | {Width(others)} |");
            }
        }

        Line();
    }

    private static string Width(IEnumerable<ZoneAnswer> zones) => Cells.Feet(Stats.MedianOf(zones.Select(z => z.WidthFeet)));

    private void Use()
    {
        Line("## Use");
        Line();
        Line("| what | stage | n | figure | goal | verdict |");
        Line("|---|---|---|---|---|---|");
        foreach (var stage in Stages)
        {
            Row("clean stores with no zone at all", stage, Of(StoreCase.Clean, stage, _ => true).Select(a => a.Zones == 0), 0.99, true);
            Row("clean stores without a zone of 0.5 or more", stage, Of(StoreCase.Clean, stage, _ => true).Select(a => a.LikelyZones == 0), null, true);
            Row("stores with only a spray: no zone of 0.5 or more", stage, Of(StoreCase.Aerosol, stage, _ => true).Select(a => a.LikelyZones == 0), null, true);
            Row("detectable off-case sources pinned on a case (zone of 0.5 or more)", stage, Of(StoreCase.OffCase, stage, o => o.Detectable).Select(a => a.LikelyCaseZones > 0), 0.05, false);
            Row("detectable off-case sources called elsewhere (0.5 or more)", stage, Of(StoreCase.OffCase, stage, o => o.Detectable).Select(a => a.Elsewhere >= 0.5), null, true);
            Row("two equal leaks, both found", stage, Of(StoreCase.TwoEqual, stage, o => o.Detectable).Select(a => a.FirstFound && a.SecondFound), 0.95, true);
            Row("one a tenth of the other, both found", stage, Of(StoreCase.OneTenth, stage, o => o.Detectable).Select(a => a.FirstFound && a.SecondFound), 0.7, true);
            Row("two equal leaks that stand out, both found", stage, Of(StoreCase.TwoEqual, stage, o => o.StandOut).Select(a => a.FirstFound && a.SecondFound), null, true);
            Row("one a tenth of the other, both standing out, both found", stage, Of(StoreCase.OneTenth, stage, o => o.StandOut).Select(a => a.FirstFound && a.SecondFound), null, true);
            var two = Of(StoreCase.TwoEqual, stage, o => o.Detectable).Concat(Of(StoreCase.OneTenth, stage, o => o.Detectable)).ToList();
            Row("two leaks of either kind, both found, a zone within 4 ft across a joint counted too", stage, two.Select(a => a.BothNear), null, true);
            Row("two leaks of either kind, both with a zone however improbable", stage, two.Select(a => a.BothListed), null, true);
        }

        var twice = all.Select(o => o.Twice).OfType<TwiceSmallest>().ToList();
        Row("leaks of twice the stated smallest-seen size reported (zone, or gas from elsewhere near it)", Stage.Coarse, twice.Select(t => t.Reported), 0.9, true);
        Row("the same, with a zone on the fixture", Stage.Coarse, twice.Select(t => t.Zone), null, true);
        Line();
        if (twice.Count > 0)
        {
            Line($"Stated smallest-seen size, coarse pass: median {Cells.One(Stats.Quantile([.. twice.Select(t => t.StatedPpm)], 0.5))} ppm, 90th percentile {Cells.One(Stats.Quantile([.. twice.Select(t => t.StatedPpm)], 0.9))} ppm.");
            Line();
        }
    }

    private IEnumerable<StoreAnswer> Of(StoreCase what, Stage stage, Func<Outcome, bool> holds) =>
        all.Where(o => o.Store.Case == what && holds(o)).SelectMany(o => o.Stores).Where(a => a.Stage == stage);

    private void Row(string what, Stage stage, IEnumerable<bool> values, double? goal, bool atLeast)
    {
        var estimate = Stats.Share(values);
        if (estimate.Count == 0) return;
        var wanted = goal is { } g ? string.Create(CultureInfo.InvariantCulture, $"{(atLeast ? "≥" : "≤")} {100 * g:0} %") : "–";
        var verdict = goal is not { } limit ? "–" : atLeast ? Cells.AtLeast(estimate, limit) : Cells.AtMost(estimate, limit);
        Line($"| {what} | {Name(stage)} | {estimate.Count} | {Cells.Percent(estimate)} | {wanted} | {verdict} |");
    }

    private void Advice()
    {
        var walks = all.Select(o => o.Advised).OfType<AdvisedAnswer>().ToList();
        if (walks.Count == 0) return;
        Line("## Following the next best probe");
        Line();
        Line("Detectable single leaks in cases, of the first stores. Two visits with the same coarse pass: one goes on with the fixed close-in and fans-off passes, the other probes where the answer so far says to go next, until its likeliest panel is as probable as the fixed passes made theirs, nothing more is advised, or it has taken as many readings. The goal is to be as certain with 30 % fewer readings; a saving among the visits that became as certain is no verdict, since easy stores are among them.");
        Line();
        Line("| what | n | figure | goal | verdict |");
        Line("|---|---|---|---|---|");
        var (fewer, reached) = (Stats.MeanOf(walks.Select(w => 1 - ((double)w.Readings / w.FixedReadings))), walks.Where(w => w.Reached).ToList());
        Line($"| as certain as the fixed protocol | {walks.Count} | {Cells.Percent(Stats.Share(walks.Select(w => w.Reached)))} | > 50 % | {Cells.AtLeast(Stats.Share(walks.Select(w => w.Reached)), 0.5)} |");
        Line($"| readings after the coarse pass, fixed | {walks.Count} | {Cells.Plain(Stats.MeanOf(walks.Select(w => (double)w.FixedReadings)))} | – | – |");
        Line($"| readings after the coarse pass, advised | {walks.Count} | {Cells.Plain(Stats.MeanOf(walks.Select(w => (double)w.Readings)))} | – | – |");
        Line($"| fewer readings, all | {walks.Count} | {Cells.Percent(fewer)} | – | – |");
        var saved = Stats.MeanOf(reached.Select(w => 1 - ((double)w.Readings / w.FixedReadings)));
        Line($"| fewer readings, where as certain | {reached.Count} | {Cells.Percent(saved)} | – | – |");
        Line($"| likeliest panel holds the leak, fixed | {walks.Count} | {Cells.Percent(Stats.Share(walks.Select(w => w.FixedRight)))} | – | – |");
        Line($"| likeliest panel holds the leak, advised | {walks.Count} | {Cells.Percent(Stats.Share(walks.Select(w => w.Right)))} | – | – |");
        Line();
    }

    private void BySubgroup()
    {
        Line("## By subgroup");
        Line();
        Line("Detectable single leaks, smooth and rough together. The goal for coverage in a subgroup is 85 to 95 %. Habit: the highest reading's median error.");
        Line();
        foreach (var stage in Stages)
        {
            Line($"### {Name(stage)}");
            Line();
            Line("| group | n | error median | 90th | right fixture | 90 % interval holds it | verdict | width | panels | habit median | 90th | habit panels |");
            Line("|---|---|---|---|---|---|---|---|---|---|---|---|");
            foreach (var (name, holds) in Groups.All)
            {
                var group = singles.Where(holds).ToList();
                var own = Answers(group, stage, Method.StoreMap);
                if (own.Count == 0) continue;
                var habit = Answers(group, stage, Method.Habit);
                var zones = group.SelectMany(o => o.Zones).Where(z => z.Stage == stage).ToList();
                var coverage = Stats.Share(zones.Select(z => z.Covered));
                Line($"| {name} | {own.Count} | {Cells.Feet(Stats.MedianOf(own.Select(a => a.ErrorFeet)))} | {Cells.Feet(Stats.NinetiethOf(own.Select(a => a.ErrorFeet)))} | {Cells.Percent(Stats.Share(own.Select(a => a.RightFixture)))} | {Cells.Percent(coverage)} | {Cells.Verdict(coverage, 0.85, 0.95)} | {Width(zones)} | {Cells.Plain(Panels(own))} | {Cells.Feet(Stats.MedianOf(habit.Select(a => a.ErrorFeet)))} | {Cells.Feet(Stats.NinetiethOf(habit.Select(a => a.ErrorFeet)))} | {Cells.Plain(Panels(habit))} |");
            }

            Line();
        }
    }

    private void Reliable()
    {
        Line("## Reliability of stated probabilities");
        Line();
        Line("Over all stores. A zone's claim is true when a leak sits on its fixture that no zone before it has claimed; a panel's claim is its zone's probability times its own. The goal is within 5 points. Diagram: [reliability](accuracy/reliability.svg).");
        Line();
        foreach (var panel in new[] { false, true })
        {
            Line(panel ? "### Panels" : "### Zones");
            Line();
            Line("| stated | claims | mean stated | came true | off by | verdict |");
            Line("|---|---|---|---|---|---|");
            foreach (var bin in Reliability.Bins(all.SelectMany(o => o.Claims).Where(c => c.Panel == panel)))
            {
                var (stated, share) = (bin.Stated, bin.True);
                Line(string.Create(CultureInfo.InvariantCulture, $"| {100 * bin.From:0}–{100 * bin.To:0} % | {share.Count} | {100 * stated:0.0} % | {Cells.Percent(share)} | {100 * (share.Value - stated):+0.0;-0.0} | {Cells.Verdict(share, stated - 0.05, stated + 0.05)} |"));
            }

            Line();
        }
    }

    private void Speed()
    {
        var locate = all.SelectMany(o => o.LocateSeconds).ToArray();
        Line("## Speed");
        Line();
        Line(string.Create(CultureInfo.InvariantCulture, $"Locating one visit: median {Stats.Quantile(locate, 0.5):0.00} s, 90th percentile {Stats.Quantile(locate, 0.9):0.00} s, longest {locate.Max():0.00} s, on a machine shared with other work. Simulating all passes of a store: mean {all.Average(o => o.SimulateSeconds):0.00} s. Readings a store (mean): coarse {all.Average(o => o.Readings[0]):0}, with close-in {all.Average(o => o.Readings[1]):0}, with fans off {all.Average(o => o.Readings[2]):0}."));
    }
}
