using System.CommandLine;
using System.Text.Json.Nodes;
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

    private static readonly Option<double> Delay = ReadingOptions.Number("--delay", "Seconds from the tip to the sensor.", SurveyDefaults.DelaySeconds, 0, 120);
    private static readonly Option<double> T90 = ReadingOptions.Number("--t90", "Seconds from 0 to 90 % of a step, the delay not included.", SurveyDefaults.T90Seconds, 0, 300);
    private static readonly Option<string> Out = Arguments.OutFile("The survey file to write.", "SURVEY");
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("log", "Puts late and smeared readings back where the probe was, takes the room's level off, and saves a survey.")
        {
            Layout, Log, Marks, Delay, T90, Out,
        };
        Reading.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var store = Store.Load(parse.GetValue(Layout)!, session);
        var options = Reading.Of(parse) with { DelaySeconds = parse.GetValue(Delay), T90Seconds = parse.GetValue(T90) };
        var read = parse.GetValue(Marks) is { } marks
            ? Align(store, parse.GetValue(Log)!, marks, options)
            : store.Read(parse.GetValue(Log)!, options);
        session.Warn(read.Warnings);
        var net = NetSurveyBuilder.Build(store.Plan, read.Survey);
        session.Warn(net.Warnings);
        using var bytes = new MemoryStream();
        SurveyDocument.Of(read.Survey, store.Plan).Write(bytes);
        var files = new OutputFiles();
        files.Add(parse.GetValue(Out)!, bytes.ToArray());
        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject
        {
            ["survey"] = written[0],
            ["readings"] = net.Readings.Count,
            ["hits"] = net.Readings.Count(r => r.IsHit),
            ["rooms"] = new JsonArray([.. net.Rooms.Select(r => new JsonObject
            {
                ["room"] = r.Room, ["name"] = r.Name, ["ppm"] = Math.Round(r.Ppm, 2), ["raised"] = r.Raised, ["reason"] = r.Reason,
            })]),
        });
        session.Say(Words.Hits(store.Plan, net));
        foreach (var room in net.Rooms.Where(r => r.Raised)) session.Say($"{room.Name}: {room.Reason}");
        session.Say($"Wrote {written[0]}");
    }

    private static SurveyReadResult Align(Store store, string logFile, string marksFile, SurveyReadOptions options)
    {
        using var logStream = InputFile.Open(logFile);
        using var markStream = InputFile.Open(marksFile);
        var log = LogCsv.Read(logStream, logFile, store.Plan, options);
        var (marks, warnings) = MarksCsv.Read(markStream, marksFile, store.Plan, store.Draft.Points, options);
        var aligned = LogAligner.Align(store.Plan, store.Draft.Points, log, marks);
        return aligned with { Warnings = [.. warnings, .. aligned.Warnings] };
    }
}
