using System.Globalization;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Logs of a probe held at each point, and clocks and lines that go wrong.</summary>
public partial class LogAlignerTests
{
    [Fact]
    public void Align_Dwells_GiveEachPointItsPlateau()
    {
        // 20 s at each of the six points of C2, 5 s between them.
        double? Feet(double t)
        {
            var (k, into) = ((int)Math.Floor((t - 10) / 25), (t - 10) % 25);
            return t >= 10 && k < 6 && into <= 20 ? 2 + (4 * k) : null;
        }

        var marks = "time,point\n" + string.Concat(Enumerable.Range(0, 6).Select(k => $"{At(10 + (25 * k))},C2-{k + 1}\n"));
        var aligned = Align(Log(Feet, 190, new SensorModel(5, 5)), marks);
        Assert.Equal(["C2-1", "C2-2", "C2-3", "C2-4", "C2-5", "C2-6"], aligned.Survey.Readings.Select(r => r.Place.Point));
        foreach (var (r, k) in aligned.Survey.Readings.Select((r, k) => (r, k)))
        {
            var truth = Truth(2 + (4 * k));
            if (truth < 1) Assert.Equal(ReadingBound.Below, r.Bound);
            else Assert.Equal(truth, r.Ppm, Math.Max(1, 0.1 * truth));
        }

        Assert.Empty(aligned.Warnings);
        Assert.Equal(Spot.Front, aligned.Survey.Readings[0].Spot);
    }

    [Fact]
    public void Align_ShortDwell_IsFlagged()
    {
        var log = Log(t => t is >= 10 and <= 12 ? 14 : t is >= 13 and <= 33 ? 22 : null, 60, new SensorModel(5, 5));
        var aligned = Align(log, $"time,point\n{At(10)},C2-4\n{At(13)},C2-6\n{At(60)},B1\n");
        var shortOne = Assert.Single(aligned.Warnings, w => w.Rule == "dwell-short");
        Assert.Equal("C2-4", shortOne.Element);
        Assert.Contains("Too short a dwell", shortOne.Message, StringComparison.Ordinal);
        Assert.Equal("dwell-unlogged", Assert.Single(aligned.Warnings, w => w != shortOne).Rule);
    }

    [Fact]
    public void Align_DwellsOnAnotherClock_FindsTheOffsetWhenAsked()
    {
        // Marks 4 s behind the log: the log's lag looks 4 s longer.
        double? Feet(double t)
        {
            var (k, into) = ((int)Math.Floor((t - 10) / 25), (t - 10) % 25);
            return t >= 10 && k < 6 && into <= 22 ? 2 + (4 * k) : null;
        }

        var marks = "time,point\n" + string.Concat(Enumerable.Range(0, 6).Select(k => $"{At(10 + (25 * k) - 4)},C2-{k + 1}\n"));
        var log = Log(Feet, 190, new SensorModel(5, 5));
        Assert.Null(Align(log, marks).Lag);
        Assert.Equal(9, Align(log, marks, new LogAlignOptions { EstimateClock = true }).Lag!.Seconds, 1.5);
        Assert.Equal(5, Align(log, marks, new LogAlignOptions { ClockOffsetSeconds = 4 }).DelaySeconds);
    }

    [Fact]
    public void Align_BothWaysOnAnotherClock_FindsTheOffsetWhenAsked()
    {
        // Marks 25 s behind the log, the monitor's delay 5 s: a lag of 30 s in all, beyond what a hose alone explains.
        double? Feet(double t) => t is >= 40 and <= 64 ? t - 40 : t is >= 80 and <= 104 ? 104 - t : null;
        var marks = $"time,fixture,at,event\n{At(15)},C2,0,start\n{At(39)},C2,24,end\n{At(55)},C2,24,start\n{At(79)},C2,0,end\n";
        var log = Log(Feet, 150, new SensorModel(5, 6));
        Assert.Null(Align(log, marks, read: new SurveyReadOptions { T90Seconds = 6 }).Lag);
        var aligned = Align(log, marks, new LogAlignOptions { EstimateClock = true }, new SurveyReadOptions { T90Seconds = 6 });
        Assert.Equal(25, aligned.ClockOffsetSeconds!.Value, 0.5);
        Assert.Equal(5, aligned.Survey.Instruments[0].DelaySeconds);
        Assert.Equal(LeakFeet, PeakFeet(aligned), 1.0);
    }

    [Fact]
    public void Align_LagThatGrows_TellsOfABlockedLine()
    {
        // Two line-ups walked both ways; between them the line slows from 4 s to 8 s.
        double? Feet(double t) => (t % 100) switch { >= 10 and <= 34 => (t % 100) - 10, >= 50 and <= 74 => 74 - (t % 100), _ => null };
        var early = Log(t => t < 100 ? Feet(t) : null, 100, new SensorModel(4, 6)).TrimEnd('\n').Split('\n');
        var late = Log(t => t >= 100 ? Feet(t) : null, 210, new SensorModel(8, 6)).TrimEnd('\n').Split('\n');
        var log = string.Join('\n', early[..101].Concat(late[101..])) + "\n";
        var marks = "time,fixture,at,event\n" + string.Concat(new[] { 0, 100 }.Select(o =>
            $"{At(o + 10)},C2,0,start\n{At(o + 34)},C2,24,end\n{At(o + 50)},C2,24,start\n{At(o + 74)},C2,0,end\n"));
        var aligned = Align(log, marks, read: new SurveyReadOptions { T90Seconds = 6 });
        Assert.Contains(aligned.Warnings, w => w.Rule == "lag-drifts");
        Assert.True(aligned.Lag!.DeviationSeconds > 0.3);
    }

    [Fact]
    public void Align_DwellsWithSensorNoise_BringDeviationsThatHold()
    {
        // 40 seeded logs of six dwells; sensor noise 0.3 ppm before rounding. Two deviations hold 95.4 % of a normal law.
        var marks = "time,point\n" + string.Concat(Enumerable.Range(0, 6).Select(k => $"{At(10 + (25 * k))},C2-{k + 1}\n"));
        var (within, all) = (0, 0);
        for (var seed = 0; seed < 40; seed++)
        {
            var random = new Random(seed);
            double? Feet(double t)
            {
                var (k, into) = ((int)Math.Floor((t - 10) / 25), (t - 10) % 25);
                return t >= 10 && k < 6 && into <= 20 ? 2 + (4 * k) : null;
            }

            var rows = Log(Feet, 190, new SensorModel(5, 5), noise: () => 0.3 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
            foreach (var (r, k) in Align(rows, marks).Survey.Readings.Select((r, k) => (r, k)).Where(x => x.r.DeviationPpm is not null))
            {
                all++;
                within += Math.Abs(r.Ppm - Truth(2 + (4 * k))) <= 2 * r.DeviationPpm!.Value ? 1 : 0;
            }
        }

        Assert.True(all >= 160, $"{all}");
        Assert.InRange((double)within / all, 0.88, 1);
    }
}
