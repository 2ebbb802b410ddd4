using System.CommandLine;
using StoreMap.App.Shell;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.App.Commands;

/// <summary>Arguments and options that several verbs share, worded once.</summary>
internal static class Arguments
{
    public static Argument<string> Layout() => new("layout") { Description = "The store's layout file (*.layout.json)." };

    public static Argument<string[]> Surveys(int atLeast) => new("survey")
    {
        Arity = new ArgumentArity(atLeast, 1000),
        Description = "Surveys (*.survey.json) or readings (*.csv). Those of one date are one visit.",
        Validators =
        {
            // A list of files takes whatever stands there: a misspelt option must not be looked for as a file.
            result =>
            {
                foreach (var token in result.Tokens.Where(t => t.Value.StartsWith("--", StringComparison.Ordinal)))
                    result.AddError($"{token.Value} is no option of this verb; --help lists them.");
            },
        },
    };

    public static Option<string?> OutFolder() => new("--out") { Description = "Folder for the files; without it nothing is written.", HelpName = "DIR" };

    public static Option<string> OutFile(string what, string name) => new("--out") { Description = what, HelpName = name, Required = true };

    public static Option<string?> Service() => new("--service")
    {
        Description = "The store's service record (*.service.json).", HelpName = "FILE",
    };
}

/// <summary>How readings files are read: the monitor and other names for the columns.</summary>
internal sealed class ReadingOptions
{
    private readonly Option<string?> columns = new("--columns") { Description = "Other column names, such as time=timestamp,ppm=conc.", HelpName = "NAMES" };
    private readonly Option<double> detection = Number("--detection-limit", "The monitor's detection limit, ppm.", SurveyDefaults.DetectionPpm, 0.001, 1000);
    private readonly Option<double> resolution = Number("--resolution", "The monitor's display step, ppm.", SurveyDefaults.ResolutionPpm, 0.0001, 1000);

    private readonly Option<double?> range = Optional("--range", "Top of the monitor's range, ppm; by default 1000, or more when the file shows more.", 1, 1_000_000);

    private readonly Option<InstrumentKind?> kind = new("--kind")
    {
        Description = "What the monitor gives: logging-ppm, display-ppm, level (bars) or hit (a sound). The last two find leaks but draw no map. [default: display-ppm]",
        HelpName = "KIND",
        CustomParser = result => Kind(result),
    };

    private readonly Option<string?> responses = new("--responses")
    {
        Description = "The monitor's response to gases it was not set to: set,actual,factor, where true ppm = shown ppm x factor.", HelpName = "CSV",
    };

    public void AddTo(Command command)
    {
        command.Add(columns);
        command.Add(detection);
        command.Add(resolution);
        command.Add(range);
        command.Add(kind);
        command.Add(responses);
    }

    public SurveyReadOptions Of(ParseResult parse) => new()
    {
        Columns = parse.GetValue(columns) is { } text ? SurveyReadOptions.ParseColumns(text) : new Dictionary<string, string>(),
        DetectionPpm = parse.GetValue(detection),
        ResolutionPpm = parse.GetValue(resolution),
        RangePpm = parse.GetValue(range),
        Kind = parse.GetValue(kind) ?? InstrumentKind.DisplayPpm,
        Responses = Table(parse.GetValue(responses)),
    };

    private static IReadOnlyList<GasResponse> Table(string? file)
    {
        if (file is null) return [];
        using var stream = InputFile.Open(file);
        return ResponsesCsv.Read(stream, file);
    }

    private static InstrumentKind? Kind(System.CommandLine.Parsing.ArgumentResult result)
    {
        var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        foreach (var known in Enum.GetValues<InstrumentKind>())
        {
            if (known.Kebab() == text) return known;
        }

        result.AddError($"--kind must be one of {string.Join(", ", Enum.GetValues<InstrumentKind>().Select(k => k.Kebab()))}; it is \"{text}\".");
        return default;
    }

    /// <summary>A number within stated bounds that may be left out.</summary>
    public static Option<double?> Optional(string name, string description, double least, double most) => new(name)
    {
        Description = FormattableString.Invariant($"{description} Between {least} and {most}."),
        HelpName = "N",
        CustomParser = result => Within(result, name, least, most),
    };

    /// <summary>A number within stated bounds.</summary>
    public static Option<double> Number(string name, string description, double standard, double least, double most)
    {
        var option = new Option<double>(name)
        {
            Description = FormattableString.Invariant($"{description} Between {least} and {most}."),
            DefaultValueFactory = _ => standard,
            HelpName = "N",
            CustomParser = result => Within(result, name, least, most) ?? standard,
        };
        return option;
    }

    private static double? Within(System.CommandLine.Parsing.ArgumentResult result, string name, double least, double most)
    {
        var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        if (double.TryParse(text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
            return value;
        result.AddError(FormattableString.Invariant($"{name} must be a number between {least} and {most}; it is \"{text}\"."));
        return null;
    }
}
