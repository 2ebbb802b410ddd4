using System.Globalization;
using System.Text;
using CsCheck;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Logs of known truth: the concentration along C2 is a two-sided exponential about a leak at 14 ft (science of the case's air:
/// exp(−|x − x0|/L)), seen through a delayed first-order sensor by the closed form, walked or dwelt upon. What must come back is the truth.</summary>
public partial class LogAlignerTests
{
    private const double LeakFeet = 14;
    private const double LengthFeet = 3;
    private static readonly DateTime Start = new(2026, 3, 4, 21, 0, 0);

    private static double Truth(double feet) => 40 * Math.Exp(-Math.Abs(feet - LeakFeet) / LengthFeet);

    // The log of a tip that is at a place of C2 (feet, or null in clean air) at each moment; whole ppm.
    private static string Log(Func<double, double?> feetAt, double until, SensorModel model, double rate = 1, Func<double>? noise = null)
    {
        double[] fine = [.. Enumerable.Range(0, (int)(until * 50) + 1).Select(i => i / 50.0)];
        var shown = model.Lag(fine, [.. fine.Select(t => feetAt(t - model.DelaySeconds) is { } x ? Truth(x) : 0)]);
        var text = new StringBuilder("time,ppm\n");
        for (var t = 0.0; t <= until; t += 1 / rate)
        {
            text.Append(CultureInfo.InvariantCulture, $"{At(t)},{Math.Round(Math.Max(0, shown[(int)Math.Round(t * 50)] + (noise?.Invoke() ?? 0)))}\n");
        }

        return text.ToString();
    }

    private static string At(double seconds) => Start.AddSeconds(seconds).ToString("yyyy-MM-dd HH:mm:ss.fff", CultureInfo.InvariantCulture);

    private static AlignedLog Align(string log, string marks, LogAlignOptions? options = null, SurveyReadOptions? read = null)
    {
        using var logStream = new MemoryStream(Encoding.UTF8.GetBytes(log));
        using var markStream = new MemoryStream(Encoding.UTF8.GetBytes(marks));
        return LogAligner.Align(
            TestStore.Plan, TestStore.Points, LogCsv.Read(logStream, "log.csv", TestStore.Plan, read),
            MarksCsv.Read(markStream, "marks.csv", TestStore.Plan, TestStore.Points).Marks, options);
    }

    private static string[] Refused(string marks)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(marks));
        return
        [
            .. Assert.Throws<RefusedInputException>(() => MarksCsv.Read(stream, "marks.csv", TestStore.Plan, TestStore.Points)).Problems
                .Where(p => p.Severity == Severity.Error).Select(p => $"{p.Element}: {p.Field}: {p.Rule}"),
        ];
    }

    private static double PeakFeet(AlignedLog aligned, Func<Reading, bool>? which = null) =>
        aligned.Survey.Readings.Where(r => which?.Invoke(r) ?? true).MaxBy(r => r.Bound == ReadingBound.Below ? 0 : r.Ppm)!.Place.Along!.Value / TestStore.Ft;

    [Theory]
    [InlineData(0.4, 5, 5, 1)]
    [InlineData(1, 5, 5, 1)]
    [InlineData(1, 7.5, 12, 2)]
    public void Align_WalkWithKnownSensor_PutsThePeakAtTheLeak(double feetPerSecond, double delay, double t90, double rate)
    {
        var walked = 24 / feetPerSecond;
        var log = Log(t => t >= 10 && t <= 10 + walked ? (t - 10) * feetPerSecond : null, 40 + walked, new SensorModel(delay, t90), rate);
        var aligned = Align(
            log, $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(10 + walked)},C2,24,end\n",
            read: new SurveyReadOptions { DelaySeconds = delay, T90Seconds = t90 });
        Assert.Equal(LeakFeet, PeakFeet(aligned), 1.0);
        Assert.Null(aligned.Lag);

        // Uncorrected, the peak would stand delay and lag further on.
        var raw = aligned.Log.Samples.MaxBy(s => s.Ppm).Time;
        Assert.True(((raw - aligned.Log.Samples[0].Time).TotalSeconds - 10) * feetPerSecond > LeakFeet + (feetPerSecond * delay * 0.9));

        // Recovered concentrations lie where the truth does, within three deviations and a reading's place.
        foreach (var r in aligned.Survey.Readings.Where(r => r.Bound == ReadingBound.Exact))
        {
            var x = r.Place.Along!.Value / TestStore.Ft;
            var (low, high) = (Math.Min(Truth(x - 0.6), Truth(x + 0.6)), Math.Abs(x - LeakFeet) < 0.6 ? 40 : Math.Max(Truth(x - 0.6), Truth(x + 0.6)));
            Assert.InRange(r.Ppm, low - (3 * r.DeviationPpm!.Value), high + (3 * r.DeviationPpm.Value));
        }
    }

    [Theory]
    [InlineData(3.1)]
    [InlineData(5)]
    [InlineData(9.4)]
    public void Align_BothWays_FindsTheDelayAndCancelsIt(double delay)
    {
        double? Feet(double t) => t is >= 10 and <= 34 ? t - 10 : t is >= 50 and <= 74 ? 74 - t : null;
        var aligned = Align(
            Log(Feet, 110, new SensorModel(delay, 6)),
            $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(34)},C2,24,end\n{At(50)},C2,24,start\n{At(74)},C2,0,end\n",
            read: new SurveyReadOptions { T90Seconds = 6 });
        Assert.Equal(delay, aligned.Lag!.Seconds, 0.5);
        Assert.Equal(aligned.Lag.Seconds, aligned.DelaySeconds);
        Assert.Equal(1, aligned.Lag.Count);
        Assert.Equal(LeakFeet, PeakFeet(aligned, r => r.Time < aligned.Survey.Start.AddSeconds(46)), 1.0);
        Assert.Equal(LeakFeet, PeakFeet(aligned, r => r.Time > aligned.Survey.Start.AddSeconds(46)), 1.0);
        Assert.Equal(Math.Abs(delay - 5) > 1, aligned.Warnings.Any(w => w.Rule == "lag-found"));
    }

    /// <summary>A draught that moved the gas 10 ft before one way back makes its pairs, three of nine, tell a lag of 10 s. A mean of all would be 1.7 s off.</summary>
    [Fact]
    public void Align_OnePairOfPassesMisledByADraught_KeepsToTheOthers()
    {
        double? Feet(double t) => (t % 100, t < 300) switch
        {
            ( >= 10 and <= 34, true) => (t % 100) - 10,
            ( >= 50 and <= 74, true) => 74 - (t % 100) + (t > 200 ? 10 : 0),
            _ => null,
        };
        var marks = new StringBuilder("time,fixture,at,event\n");
        for (var pass = 0; pass < 3; pass++)
        {
            foreach (var (t, at, what) in new[] { (10, 0, "start"), (34, 24, "end"), (50, 24, "start"), (74, 0, "end") }) marks.Append(CultureInfo.InvariantCulture, $"{At((100 * pass) + t)},C2,{at},{what}\n");
        }

        var aligned = Align(Log(Feet, 310, new SensorModel(5, 6)), marks.ToString(), read: new SurveyReadOptions { T90Seconds = 6 });
        Assert.Equal(9, aligned.Lag!.Count);
        Assert.True(aligned.Lag.SpreadSeconds > 3, $"{aligned.Lag.SpreadSeconds}");
        Assert.Equal(5, aligned.Lag.Seconds, 0.7);
    }

    [Fact]
    public void Align_KnownDelayThatTheLogContradicts_IsKeptAndTold()
    {
        double? Feet(double t) => t is >= 10 and <= 34 ? t - 10 : t is >= 50 and <= 74 ? 74 - t : null;
        var aligned = Align(
            Log(Feet, 110, new SensorModel(9, 6)),
            $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(34)},C2,24,end\n{At(50)},C2,24,start\n{At(74)},C2,0,end\n",
            new LogAlignOptions { DelayKnown = true }, new SurveyReadOptions { T90Seconds = 6 });
        Assert.Equal(5, aligned.DelaySeconds);
        Assert.Equal("lag-differs", Assert.Single(aligned.Warnings).Rule);
    }

    [Fact]
    public void Align_CleanLogBothWays_FindsNoLag()
    {
        var aligned = Align(
            Log(_ => null, 110, new SensorModel(5, 5)),
            $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(34)},C2,24,end\n{At(50)},C2,24,start\n{At(74)},C2,0,end\n");
        Assert.Null(aligned.Lag);
        Assert.All(aligned.Survey.Readings, r => Assert.Equal((ReadingBound.Below, 1.0), (r.Bound, r.Ppm)));
    }

    [Fact]
    public void Align_OverMidnight_IsOneVisitDatedByItsStart()
    {
        var late = "time,ppm\n" + string.Concat(Enumerable.Range(0, 240).Select(t =>
            $"{Start.AddHours(2).AddMinutes(58).AddSeconds(t).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)},0\n"));
        var aligned = Align(late, "time,point\n2026-03-04 23:58:10,C2-1\n2026-03-05 00:00:30,C2-3\n2026-03-05 00:01:10,B1\n");
        Assert.Equal(3, aligned.Survey.Readings.Count);
        Assert.Equal(new DateOnly(2026, 3, 4), DateOnly.FromDateTime(aligned.Survey.Start.DateTime));
        Assert.Equal(new DateOnly(2026, 3, 5), DateOnly.FromDateTime(aligned.Survey.Readings[1].Time.DateTime));
    }

    [Fact]
    public void Align_ZeroMark_CutsTheBackground()
    {
        // The room reads 6 until the monitor zeroes itself at 100 s, then 0: no leak on either side.
        var log = "time,ppm\n" + string.Concat(Enumerable.Range(0, 200).Select(t => $"{At(t)},{(t < 100 ? 6 : 0)}\n"));
        string[] order = ["B1", "C2-1", "C2-3", "C2-5"];
        var marks = "time,point,event\n" + string.Concat(order.Select((p, k) => $"{At(5 + (22 * k))},{p},\n"))
            + $"{At(99)},,zero\n" + string.Concat(order.Select((p, k) => $"{At(105 + (22 * k))},{p},\n"));
        var aligned = Align(log, marks);
        Assert.Equal(Start.AddSeconds(99), Assert.Single(aligned.Survey.Zeroed).Time.DateTime);
        var net = NetSurveyBuilder.Build(TestStore.Plan, aligned.Survey);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        Assert.All(net.Readings.Take(4), r => Assert.InRange(r.BackgroundPpm, 5, 7));
        Assert.All(net.Readings.Skip(4), r => Assert.InRange(r.BackgroundPpm, 0, 1));
    }

    [Fact]
    public void Align_WalkWithPause_StandsStillMeanwhile()
    {
        // 12 ft in 12 s, 30 s still, 12 ft in 12 s.
        double? Feet(double t) => t switch { >= 10 and <= 22 => t - 10, > 22 and < 52 => 12, >= 52 and <= 64 => t - 40, _ => null };
        var aligned = Align(
            Log(Feet, 90, new SensorModel(5, 5)),
            $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(22)},,,pause\n{At(52)},,,resume\n{At(64)},C2,24,end\n");
        Assert.Equal(LeakFeet, PeakFeet(aligned), 1.0);
        var still = aligned.Survey.Readings.Where(r => Math.Abs((r.Place.Along!.Value / TestStore.Ft) - 12) < 0.6).ToArray();
        Assert.InRange(still.Length, 1, 3);
    }

    [Fact]
    public void Align_WalkOverTwoCases_FollowsTheFronts()
    {
        // From C1 (front at y = 13, right to left) round to C2: the middle of the way belongs to no front.
        var aligned = Align(
            Log(_ => null, 80, new SensorModel(5, 5)), $"time,fixture,at,event\n{At(10)},C1,0,start\n{At(60)},C2,24,end\n");
        var fixtures = aligned.Survey.Readings.Select(r => r.Place.Fixture).Distinct().ToArray();
        Assert.Equal(["C1", null, "C2"], fixtures);
        Assert.True(aligned.Unplaced > 0);
    }

    [Fact]
    public void GoBack_AfterAHit_NamesThePlaceTheWayAndTheNearestPoints()
    {
        var log = Log(t => t is >= 10 and <= 34 ? t - 10 : null, 70, new SensorModel(5, 0.1));
        var aligned = Align(log, $"time,fixture,at,event\n{At(10)},C2,0,start\n{At(34)},C2,24,end\n", read: new SurveyReadOptions { T90Seconds = 0.1 });
        var peak = aligned.Log.Samples.MaxBy(s => s.Ppm).Time;
        var back = GoBack.Find(aligned, peak, TestStore.Points)!;
        Assert.Equal(LeakFeet, back.Place.Along!.Value / TestStore.Ft, 1.0);
        Assert.Equal(5, back.WalkedMetres / TestStore.Ft, 0.01);
        Assert.Equal("C2-4", back.Nearest[0].Id);
        var hit = Assert.Single(GoBack.Hits(aligned, NetSurveyBuilder.Build(TestStore.Plan, aligned.Survey), TestStore.Points));
        Assert.Equal(LeakFeet, hit.Place.Place.Along!.Value / TestStore.Ft, 1.0);
        Assert.Equal(5, hit.Place.WalkedMetres / TestStore.Ft, 0.3);
        Assert.Null(GoBack.Find(aligned, peak.AddMinutes(5), TestStore.Points));
    }

    [Fact]
    public void Align_Saturated_KeepsAtLeastAndTheRestIsCarryOver()
    {
        var log = "time,ppm\n" + string.Concat(Enumerable.Range(0, 60).Select(t =>
            $"{At(t)},{(t < 20 ? "0" : t < 26 ? "over" : t < 40 ? Math.Round(900 * Math.Exp(-(t - 26) / 4.0)).ToString(CultureInfo.InvariantCulture) : "0")}\n"));
        var aligned = Align(log, $"time,fixture,at,event\n{At(2)},C2,0,start\n{At(50)},C2,24,end\n");
        var over = aligned.Survey.Readings.Where(r => r.Bound == ReadingBound.AtLeast).ToArray();
        Assert.NotEmpty(over);
        Assert.All(over, r => Assert.Equal(1000, r.Ppm));
        var net = NetSurveyBuilder.Build(TestStore.Plan, aligned.Survey);
        Assert.Contains(net.Readings, r => r.CarryOver);
        Assert.DoesNotContain(net.Readings, r => r.IsHit && r.Reading.Time > over[^1].Time);
    }

    [Fact]
    public void Read_BrokenMarks_NamesEveryOne()
    {
        Assert.Equal(
            ["row 2: event: mark-event", "row 3: fixture: reading-fixture", "row 4: : reading-place", "row 5: time: reading-time"],
            Refused($"time,fixture,at,event\n{At(1)},C2,0,begin\n{At(2)},C99,0,start\n{At(3)},,,start\nlater,C2,24,end\n"));
        Assert.Equal(
            ["row 2: event: mark-order", "row 4: event: mark-order", "row 5: event: mark-order", "row 7: event: mark-order", "row 8: event: mark-order", "row 8: event: mark-order"],
            Refused($"time,fixture,at,event\n{At(1)},C2,0,end\n{At(2)},C2,0,start\n{At(3)},C2,0,start\n{At(4)},,,resume\n{At(5)},,,pause\n{At(6)},C2,9,\n{At(7)},C2,9,start\n"));
        Assert.Equal([": : marks-none"], Refused("time,fixture,at,event\n"));
    }

    [Fact]
    public void Align_MarksOfAnotherDay_IsRefused()
    {
        var refused = Assert.Throws<RefusedInputException>(() => Align(Log(_ => null, 30, new SensorModel(5, 5)), "time,point\n2026-03-09 21:00,C2-1\n"));
        Assert.Equal("log-unplaced", refused.Problems[0].Rule);
    }

    [Fact]
    public void Align_AnyMarksWithinTheLog_PlacesReadingsOnTheirFixture() =>
        Gen.Select(Gen.Double[0, 24], Gen.Double[0, 24], Gen.Double[1, 40]).Sample((a, b, walked) =>
        {
            var aligned = Align(
                Log(t => t is >= 10 && t <= 10 + walked ? a + ((b - a) * (t - 10) / walked) : null, 70, new SensorModel(5, 5)),
                FormattableString.Invariant($"time,fixture,at,event\n{At(10)},C2,{a:R},start\n{At(10 + walked)},C2,{b:R},end\n"));
            Assert.All(aligned.Survey.Readings, r =>
            {
                Assert.Equal("C2", r.Place.Fixture);
                Assert.InRange(r.Place.Along!.Value / TestStore.Ft, Math.Min(a, b) - 1e-9, Math.Max(a, b) + 1e-9);
            });
        }, iter: 30);
}
