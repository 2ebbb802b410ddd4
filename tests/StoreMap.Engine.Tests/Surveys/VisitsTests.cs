using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

public class VisitsTests
{
    [Fact]
    public void ByDate_TwoMonitorsOnOneMorning_AreOneVisitInTimeOrder()
    {
        var late = Survey("2026-06-09T06:30:00-05:00", new Instrument { Id = "M", DetectionPpm = 2 }, "2026-06-09T06:31:00-05:00");
        var early = Survey("2026-06-09T06:00:00-05:00", new Instrument { Id = "M" }, "2026-06-09T06:40:00-05:00");
        var visits = Visits.ByDate([late, early]);
        var visit = Assert.Single(visits);
        Assert.Equal(["M-2", "M"], visit.Readings.Select(r => r.Instrument));
        Assert.Equal(2, visit.InstrumentOf(visit.Readings[0]).DetectionPpm);
        Assert.Equal(early.Start, visit.Start);
    }

    [Fact]
    public void ByDate_TheSameMonitorTwice_StaysOne()
    {
        var a = Survey("2026-06-09T06:00:00-05:00", new Instrument { Id = "M" }, "2026-06-09T06:01:00-05:00");
        var b = Survey("2026-06-09T09:00:00-05:00", new Instrument { Id = "M" }, "2026-06-09T09:01:00-05:00");
        Assert.Single(Visits.ByDate([a, b])[0].Instruments);
    }

    [Fact]
    public void ByDate_AVisitOverMidnight_IsDatedByItsStart()
    {
        var night = Survey("2026-06-09T23:00:00-05:00", new Instrument { Id = "M" }, "2026-06-10T01:00:00-05:00");
        var july = Survey("2026-07-07T23:00:00-05:00", new Instrument { Id = "M" }, "2026-07-08T01:00:00-05:00");
        Assert.Equal([night, july], Visits.ByDate([july, night]));
    }

    [Fact]
    public void ByDate_ZeroingsAndFindingsOfEachPart_AreKeptWithTheirMonitor()
    {
        var a = Survey("2026-06-09T06:00:00-05:00", new Instrument { Id = "M" }, "2026-06-09T06:01:00-05:00") with
        {
            Zeroed = [new ZeroEvent(At("2026-06-09T06:30:00-05:00"), null)], Findings = [new SurveyFinding { Id = "F1" }],
        };
        var b = Survey("2026-06-09T06:10:00-05:00", new Instrument { Id = "M", DetectionPpm = 2 }, "2026-06-09T06:11:00-05:00") with
        {
            Zeroed = [new ZeroEvent(At("2026-06-09T06:20:00-05:00"), null)], Findings = [new SurveyFinding { Id = "F2" }],
        };
        var visit = Assert.Single(Visits.ByDate([a, b]));
        Assert.Equal(["M-2", "M"], visit.Zeroed.Select(z => z.Instrument));
        Assert.Equal(["F1", "F2"], visit.Findings.Select(f => f.Id));
    }

    private static Survey Survey(string start, Instrument instrument, string reading) => new()
    {
        Store = "s",
        Start = At(start),
        Instruments = [instrument],
        Readings = [new Reading { Time = At(reading), Ppm = 1, Place = new ReadingPlace { At = new PlanPoint(0, 0) } }],
    };

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
