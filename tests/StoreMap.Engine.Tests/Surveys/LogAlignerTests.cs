using System.Globalization;
using System.Text;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Logs made with the closed-form response of a first-order sensor (tau = T90 / ln 10) behind a delay, put back in place.
/// A centroid of an uncorrected peak would lie v (delay + tau) downstream.</summary>
public class LogAlignerTests
{
    private const double Delay = 5;
    private const double T90 = 6;

    [Fact]
    public void Align_DwellsBesideALeak_ReadWhereTheProbeWasNotWhereTheNumberCame()
    {
        // Gas only while the probe is held at the second point, 20 s to 35 s.
        var survey = Align(Log(t => t is >= 20 and < 35 ? 30 : 0), "time,fixture,at\n00:00:05,C1,1\n00:00:20,C1,4\n00:00:36,C1,7\n00:00:55,C1,9\n");
        Assert.Equal(4, survey.Readings.Count);
        Assert.Equal(30, survey.Readings[1].Ppm, 1.5);
        Assert.All(new[] { 0, 2, 3 }, i => Assert.Equal(ReadingBound.Below, survey.Readings[i].Bound));
    }

    [Fact]
    public void Align_SteadyWalk_PutsThePeakWhereTheGasIs()
    {
        // 10 m at 0.2 m/s past gas between 5.0 and 6.0 m: from 25 s to 30 s of the walk that begins at 10 s.
        var survey = Align(Log(t => t is >= 35 and < 40 ? 40 : 0), "time,fixture,at,event\n00:00:10,C1,0,start\n00:01:00,C1,10,end\n");
        var peak = survey.Readings.MaxBy(r => r.Ppm)!;
        Assert.InRange(peak.Place.Along!.Value, 5 - 0.4, 6 + 0.4);
        Assert.Equal("C1", peak.Place.Fixture);
    }

    [Fact]
    public void Align_WalkWithAPause_StandsStillMeanwhile()
    {
        var survey = Align(Log(t => t is >= 55 and < 60 ? 40 : 0),
            "time,fixture,at,event\n00:00:10,C1,0,start\n00:00:20,,,pause\n00:00:40,,,resume\n00:01:20,C1,10,end\n");
        var peak = survey.Readings.MaxBy(r => r.Ppm)!;
        Assert.InRange(peak.Place.Along!.Value, 5 - 0.4, 6 + 0.4);
    }

    [Fact]
    public void Align_OverRange_IsAtLeastTheRange()
    {
        var survey = Align(Log(t => t >= 20 ? 2000 : 0), "time,fixture,at\n00:00:05,C1,1\n00:00:20,C1,4\n");
        Assert.Equal((ReadingBound.AtLeast, 1000.0), (survey.Readings[1].Bound, survey.Readings[1].Ppm));
    }

    [Fact]
    public void Align_TooShortADwell_IsFlagged()
    {
        var result = Result(Log(_ => 5), "time,fixture,at\n00:00:20,C1,1\n00:00:22,C1,4\n");
        Assert.Equal("dwell-short", Assert.Single(result.Warnings).Rule);
        Assert.Equal("too short a dwell", result.Survey.Readings[0].Note);
    }

    [Fact]
    public void Align_OtherDay_IsRefused()
    {
        var refused = Assert.Throws<RefusedInputException>(() => Result(Log(_ => 0), "time,fixture,at\n2026-03-05 10:00:00,C1,1\n"));
        Assert.Equal("log-no-overlap", refused.Problems[0].Rule);
    }

    private static Survey Align(string log, string marks) => Result(log, marks).Survey;

    private static SurveyReadResult Result(string log, string marks)
    {
        var plan = new Plan
        {
            Id = "s",
            Name = "S",
            Outline = [new(0, 0), new(20, 0), new(20, 10), new(0, 10)],
            Fixtures =
            [
                new Fixture
                {
                    Id = "C1", Tag = "C1", Kind = FixtureKind.OpenCase, Outline = [new(1, 5), new(13, 5), new(13, 6), new(1, 6)],
                    Front = new PlanLine([new(1, 5), new(13, 5)]), Sections = [new Section(1, 0, 12, 1, null)],
                },
            ],
        };
        marks = marks.Replace("\n00:", "\n2026-03-04 00:", StringComparison.Ordinal);
        var options = new SurveyReadOptions { DelaySeconds = Delay, T90Seconds = T90 };
        var samples = LogCsv.Read(new MemoryStream(Encoding.UTF8.GetBytes(log)), "log.csv", plan, options);
        var (placed, _) = MarksCsv.Read(new MemoryStream(Encoding.UTF8.GetBytes(marks)), "marks.csv", plan, [], options);
        return LogAligner.Align(plan, [], samples, placed);
    }

    /// <summary>A log of 90 s at 1 Hz: the truth at the tip, delayed, through the sensor step by step, rounded.</summary>
    private static string Log(Func<double, double> truth)
    {
        var text = new StringBuilder("time,ppm\n");
        var (level, keep) = (0.0, Math.Exp(-0.1 * Math.Log(10) / T90));
        for (var k = 0; k <= 900; k++)
        {
            level = (keep * level) + ((1 - keep) * truth((k / 10.0) - Delay));
            if (k % 10 != 0) continue;
            var shown = level > 1000 ? ">1000" : Math.Round(level).ToString(CultureInfo.InvariantCulture);
            text.Append(CultureInfo.InvariantCulture, $"2026-03-04 00:{k / 600:00}:{k / 10 % 60:00},{shown}\n");
        }

        return text.ToString();
    }
}
