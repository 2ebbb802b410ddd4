using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Surveys;

namespace StoreMap.App.Commands;

/// <summary><c>calibrate</c>: delay and T90 of a sampling line from a puff test.</summary>
internal static class CalibrateCommand
{
    private static readonly Argument<string> Log = new("log") { Description = "The monitor's log of the test: time,ppm. Times are seconds or ISO 8601." };

    private static readonly Option<string> Starts = new("--starts")
    {
        Description = "When gas was put to the tip, on the clock of the log: seconds, or times such as 08:15:30. The more puffs the better; five or more are good.",
        HelpName = "T,…",
        Required = true,
    };

    private static readonly Option<string?> Columns = new("--columns") { Description = "Other column names, such as time=t_s,ppm=log_ppm.", HelpName = "NAMES" };
    private static readonly Option<double> Resolution = ReadingOptions.Number("--resolution", "The monitor's display step, ppm.", SurveyDefaults.ResolutionPpm, 0.0001, 1000);

    public static Command Create(Host host)
    {
        var command = new Command("calibrate", "Finds how late (delay) and how slowly (T90) a sampling line shows gas, from a log of puffs with known starts.")
        {
            Log, Starts, Columns, Resolution,
        };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var file = parse.GetValue(Log)!;
        using var stream = InputFile.Open(file);
        var options = new SurveyReadOptions
        {
            Columns = parse.GetValue(Columns) is { } names ? SurveyReadOptions.ParseColumns(names) : new Dictionary<string, string>(),
        };
        var log = LogCsv.ReadSeconds(stream, file, options);
        var estimate = SensorCalibration.FitStarts(log.Seconds, log.Ppm, StartsOf(parse.GetValue(Starts)!, log.Midnight), parse.GetValue(Resolution));
        session.Document(() => new JsonObject
        {
            ["delaySeconds"] = Math.Round(estimate.DelaySeconds, 4),
            ["delayDeviation"] = Math.Round(estimate.DelayDeviation, 4),
            ["t90Seconds"] = Math.Round(estimate.T90Seconds, 4),
            ["t90Deviation"] = Math.Round(estimate.T90Deviation, 4),
            ["residualPpm"] = Math.Round(estimate.ResidualPpm, 4),
            ["puffSeconds"] = new JsonArray([.. estimate.Puffs.Select(p => double.IsFinite(p) ? JsonValue.Create(Math.Round(p, 2)) : null)]),
        });
        session.Say(FormattableString.Invariant($"Delay {estimate.DelaySeconds:0.0} s (deviation {estimate.DelayDeviation:0.0#} s), T90 {estimate.T90Seconds:0.0} s (deviation {estimate.T90Deviation:0.0#} s)."));
        session.Say(FormattableString.Invariant($"Use them with: storemap log … --delay {estimate.DelaySeconds:0.0} --t90 {estimate.T90Seconds:0.0}"));
    }

    private static List<double> StartsOf(string text, DateTimeOffset? midnight)
    {
        var starts = new List<double>();
        var problems = new List<Problem>();
        foreach (var part in text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (Seconds(part, midnight) is { } seconds) starts.Add(seconds);
            else
            {
                problems.Add(new Problem(Severity.Error, null, null, "starts", part, "puff-start", midnight is null
                    ? "This is no start. The log counts seconds: write seconds, such as 20.5."
                    : "This is no start. The log has clock times: write a time such as 08:15:30, or a date and time."));
            }
        }

        if (starts.Count == 0 && problems.Count == 0) problems.Add(new Problem(Severity.Error, null, null, "starts", text, "puff-start", "Give one start or more."));
        return problems.Count == 0 ? starts : throw new RefusedInputException(problems);
    }

    private static double? Seconds(string text, DateTimeOffset? midnight)
    {
        var plain = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number);
        if (midnight is not { } day) return plain ? number : null;
        if (TimeOnly.TryParse(text, CultureInfo.InvariantCulture, out var time)) return time.ToTimeSpan().TotalSeconds;
        if (DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment)) return (moment - day).TotalSeconds;
        return plain ? number : null;
    }
}
