using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;
using StoreMap.Surveys;

namespace StoreMap.App.Commands;

/// <summary><c>log</c>: a monitor's log put back where the probe was, saved as a survey.</summary>
internal static class LogCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Argument<string> Log = new("log") { Description = "Readings with places, or a continuous log (time,ppm) that goes with marks." };

    private static readonly Option<string?> Marks = new("--marks")
    {
        Description = "When the probe was where: time and point, or fixture,at, or x,y; event start, end, pause, resume for a steady walk.", HelpName = "CSV",
    };

    private static readonly Option<double?> Delay = ReadingOptions.Optional(
        "--delay", "Seconds from the tip to the sensor, as calibrated. Left out, line-ups walked both ways tell it, else it is 5.", 0, 120);

    private static readonly Option<double> T90 = ReadingOptions.Number("--t90", "Seconds from 0 to 90 % of a step, the delay not included.", SurveyDefaults.T90Seconds, 0, 300);
    private static readonly Option<double?> Clock = ReadingOptions.Optional("--clock", "Seconds to add to the marks' times to bring them onto the log's clock.", -86400, 86400);
    private static readonly Option<bool> FindClock = new("--find-clock") { Description = "Estimate the offset of the two clocks, up to a minute, from the log itself." };
    private static readonly Option<string> Out = Arguments.OutFile("The survey file to write.", "SURVEY");
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("log", "Puts late and smeared readings back where the probe was, takes the room's level off, and saves a survey.")
        {
            Layout, Log, Marks, Delay, T90, Clock, FindClock, Out,
        };
        Reading.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(Marks) is not null) return;
            if (result.GetValue(Clock) is not null || result.GetValue(FindClock)) result.AddError("--clock and --find-clock go with --marks.");
        });
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var store = Store.Load(parse.GetValue(Layout)!, session);
        var options = Reading.Of(parse) with
        {
            DelaySeconds = parse.GetValue(Delay) ?? SurveyDefaults.DelaySeconds, T90Seconds = parse.GetValue(T90),
        };
        var aligned = parse.GetValue(Marks) is { } marks ? Align(session, store, parse, marks, options) : null;
        var survey = aligned?.Survey ?? Placed(session, store, parse.GetValue(Log)!, options);
        var net = NetSurveyBuilder.Build(store.Plan, survey);
        session.Warn(net.Warnings);
        using var bytes = new MemoryStream();
        SurveyDocument.Of(survey, store.Plan).Write(bytes);
        var files = new OutputFiles();
        files.Add(parse.GetValue(Out)!, bytes.ToArray());
        var written = files.Commit(session.Cancel);
        var places = aligned is null ? [] : GoBack.Hits(aligned, net, store.Draft.Points);
        session.Document(() => LogJson.Of(store.Plan, written[0], net, aligned, places));
        session.Say(Words.Hits(store.Plan, net));
        foreach (var place in places) session.Say(Words.GoBack(store.Plan, place));
        session.Say($"Wrote {written[0]}");
    }

    private static Survey Placed(Session session, Store store, string file, SurveyReadOptions options)
    {
        var read = store.Read(file, options);
        session.Warn(read.Warnings);
        return read.Survey;
    }

    private static AlignedLog Align(Session session, Store store, ParseResult parse, string marksFile, SurveyReadOptions options)
    {
        var logFile = parse.GetValue(Log)!;
        using var logStream = InputFile.Open(logFile);
        using var markStream = InputFile.Open(marksFile);
        var log = LogCsv.Read(logStream, logFile, store.Plan, options);
        var (marks, warnings) = MarksCsv.Read(markStream, marksFile, store.Plan, store.Draft.Points, options);
        session.Warn(warnings);
        var aligned = LogAligner.Align(store.Plan, store.Draft.Points, log, marks, new LogAlignOptions
        {
            DelayKnown = parse.GetValue(Delay) is not null,
            ClockOffsetSeconds = parse.GetValue(Clock) ?? 0,
            EstimateClock = parse.GetValue(FindClock),
        });
        session.Warn(aligned.Warnings);
        return aligned;
    }
}
