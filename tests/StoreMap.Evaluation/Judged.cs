using System.Text;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>Hands files of a simulated visit to the engine as a user would.</summary>
internal static class Judged
{
    /// <summary>Reads a readings file and takes the backgrounds off.</summary>
    public static NetSurvey Readings(SimulatedStore store, HandMonitor monitor, string csv)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(csv));
        return NetSurveyBuilder.Build(store.Plan, SurveyReader.Read(stream, "readings.csv", store.Plan, [], Options(monitor)).Survey);
    }

    /// <summary>Reads a continuous log with its marks and takes the backgrounds off.</summary>
    public static NetSurvey Log(SimulatedStore store, HandMonitor monitor, string logCsv, string marksCsv)
    {
        using var log = new MemoryStream(Encoding.UTF8.GetBytes(logCsv));
        using var marks = new MemoryStream(Encoding.UTF8.GetBytes(marksCsv));
        var options = Options(monitor);
        var read = LogCsv.Read(log, "log.csv", store.Plan, options);
        var aligned = LogAligner.Align(store.Plan, [], read, MarksCsv.Read(marks, "marks.csv", store.Plan, [], options).Marks);
        return NetSurveyBuilder.Build(store.Plan, aligned.Survey);
    }

    /// <summary>Locates with nothing known from before.</summary>
    public static LocateResult Locate(Plan plan, NetSurvey survey) => LeakLocator.Locate(plan, survey, []);

    // The technician knows the limits and the step of the display; delay and response only as the usual 5 s.
    private static SurveyReadOptions Options(HandMonitor monitor) =>
        new() { DetectionPpm = monitor.DetectionPpm, ResolutionPpm = monitor.StepPpm, RangePpm = monitor.RangePpm };
}
