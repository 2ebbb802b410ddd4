using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using StoreMap.App.Documents;
using StoreMap.App.Shell;
using StoreMap.Fields;

namespace StoreMap.App.Commands;

/// <summary><c>interpolate</c>: classical methods, or the heat map's field, over any points.</summary>
internal static class InterpolateCommand
{
    private static readonly Argument<string> Points = new("points") { Description = "Sample points: x,y,value, in any one unit of length." };
    private static readonly Option<string> At = new("--at") { Description = "Places to estimate: x,y and, if wanted, id.", HelpName = "CSV", Required = true };

    private static readonly Option<string?> Method = Choice("--method",
        "idw (inverse distance weighting), kriging (ordinary kriging) or field (the heat map's Gaussian field, without walls). "
        + "Left out: kriging when --variogram or --fit is given, else idw.", ["idw", "kriging", "field"]);

    private static readonly Option<string?> Variogram = new("--variogram")
    {
        Description = "MODEL,NUGGET,SILL,RANGE: MODEL is spherical, exponential or gaussian (or Sph, Exp, Gau), SILL the rise above the nugget, "
            + "RANGE the parameter a in the unit of the points. Without it kriging fits a spherical one.",
        HelpName = "MODEL,NUGGET,SILL,RANGE",
    };

    private static readonly Option<bool> Fit = new("--fit") { Description = "Fit the variogram to the points; of --variogram only the model is then used." };
    private static readonly Option<double> Power = ReadingOptions.Number("--power", "Power of the distance for idw.", 2, 0.1, 20);
    private static readonly Option<int?> Nearest = new("--nearest") { Description = "Use only so many nearest points for each estimate (idw, kriging); left out, all.", HelpName = "N" };
    private static readonly Option<string?> Columns = new("--columns") { Description = "Other column names, such as x=x_m,y=y_m,value=ppm.", HelpName = "NAMES" };
    private static readonly Option<string?> Out = new("--out") { Description = "Write the estimates to this CSV.", HelpName = "CSV" };

    public static Command Create(Host host)
    {
        var command = new Command("interpolate", "Estimates values between points, with their deviation and a score by leaving out one point at a time. Knows no walls.")
        {
            Points, At, Method, Variogram, Fit, Power, Nearest, Columns, Out,
        };
        command.Validators.Add(result =>
        {
            var method = result.GetValue(Method);
            var kriging = result.GetValue(Variogram) is not null || result.GetValue(Fit);
            if (kriging && method is "idw" or "field") result.AddError("--variogram and --fit go with --method kriging.");
            if (result.GetValue(Nearest) is < 1) result.AddError("--nearest must be 1 or more.");
            if (result.GetValue(Nearest) is not null && method == "field") result.AddError("--nearest goes with idw and kriging.");
            if (result.GetValue(Variogram) is { } text && Model(text) is null)
            {
                result.AddError($"--variogram must be MODEL,NUGGET,SILL,RANGE such as spherical,0.05,0.59,897, with NUGGET and SILL at least 0 and not both 0, RANGE above 0; it is \"{text}\".");
            }
        });
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    /// <summary>An option that takes one of some words.</summary>
    private static Option<string?> Choice(string name, string description, string[] words)
    {
        var option = new Option<string?>(name) { Description = description, HelpName = string.Join('|', words) };
        option.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && !words.Contains(result.Tokens[0].Value)) result.AddError($"{name} must be one of {string.Join(", ", words)}; it is \"{result.Tokens[0].Value}\".");
        });
        return option;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var columns = parse.GetValue(Columns) is { } names ? SampleCsv.ParseColumns(names) : null;
        var (samples, places) = Inputs(parse.GetValue(Points)!, parse.GetValue(At)!, columns);
        var method = parse.GetValue(Method) ?? (parse.GetValue(Variogram) is not null || parse.GetValue(Fit) ? "kriging" : "idw");
        var nearest = parse.GetValue(Nearest);
        var json = new JsonObject { ["method"] = method };
        KrigingEstimate[] estimates;
        CrossValidation? score = null;
        switch (method)
        {
            case "kriging":
                RefuseCoinciding(samples, parse.GetValue(Points)!);
                var model = VariogramOf(session, parse, samples, json);
                var kriging = new OrdinaryKriging(samples, model, nearest);
                estimates = [.. places.Select(p => kriging.Estimate(p.At))];
                if (samples.Count > 2) score = CrossValidation.OfKriging(samples, model, nearest);
                break;
            case "field":
                var field = FieldInterpolation.Of(samples, session.Cancel);
                json["field"] = new JsonObject { ["range"] = field.Range, ["spread"] = field.Spread, ["noise"] = field.Noise, ["mean"] = field.Mean };
                estimates = [.. places.Select(p => field.Estimate(p.At))];
                if (samples.Count > 2) score = field.CrossValidate();
                break;
            default:
                var power = parse.GetValue(Power);
                json["power"] = power;
                estimates = [.. places.Select(p => new KrigingEstimate(InverseDistance.Estimate(samples, p.At, power, nearest), double.NaN))];
                if (samples.Count > 2) score = CrossValidation.OfInverseDistance(samples, power, nearest);
                break;
        }

        session.Cancel.ThrowIfCancellationRequested();
        json["crossValidation"] = score is null ? null : Score(score);
        json["points"] = new JsonArray([.. places.Zip(estimates, Point)]);
        var csv = Csv(places, estimates);
        var files = new OutputFiles();
        if (parse.GetValue(Out) is { } file) files.Add(file, Encoding.UTF8.GetBytes(csv));
        var written = files.Commit(session.Cancel);
        session.Document(() => json);
        if (written.Count == 0) session.Say(csv.TrimEnd('\n'));
        foreach (var path in written) session.Say($"Wrote {path}");
        if (score is not null) session.Note(FormattableString.Invariant($"Leaving out one point at a time: mean error {score.MeanError:g4}, root mean square {score.RootMeanSquare:g4}."));
    }

    private static (IReadOnlyList<SamplePoint> Samples, IReadOnlyList<NamedPlace> Places) Inputs(string points, string at, IReadOnlyDictionary<string, string>? columns)
    {
        var problems = new List<Problem>();
        var samples = Try(points, s => SampleCsv.ReadSamples(s, points, columns));
        var places = Try(at, s => SampleCsv.ReadPlaces(s, at, columns));
        return problems.Count == 0 ? (samples!, places!) : throw new RefusedInputException(problems);

        IReadOnlyList<T>? Try<T>(string file, Func<Stream, IReadOnlyList<T>> read)
        {
            try
            {
                using var stream = InputFile.Open(file);
                return read(stream);
            }
            catch (RefusedInputException refused)
            {
                problems.AddRange(refused.Problems);
                return null;
            }
        }
    }

    private static void RefuseCoinciding(IReadOnlyList<SamplePoint> samples, string file)
    {
        var twice = samples.Index().GroupBy(s => s.Item.At).Where(g => g.Count() > 1).ToList();
        if (twice.Count == 0) return;
        throw new RefusedInputException([.. twice.Take(20).Select(g => new Problem(Severity.Error, file, null, "x,y", FormattableString.Invariant($"{g.Key.X}, {g.Key.Y}"),
            "points-coincide", FormattableString.Invariant($"{g.Count()} points lie at this place (points {string.Join(", ", g.Select(p => p.Index + 1))} of the file). Kriging needs one value a place: take their mean, or use --method field.")))]);
    }

    private static VariogramModel VariogramOf(Session session, ParseResult parse, IReadOnlyList<SamplePoint> samples, JsonObject json)
    {
        var given = parse.GetValue(Variogram) is { } text ? Model(text) : null;
        var model = given;
        VariogramFit? fit = null;
        if (given is null || parse.GetValue(Fit))
        {
            fit = FitTo(parse, samples, given?.Shape ?? VariogramShape.Spherical);
            model = fit.Model;
            if (fit.AtLimit) session.Note("warning: the points show no sill within their extent; the fitted variogram is doubtful.");
        }

        json["variogram"] = new JsonObject
        {
            ["model"] = model!.Shape.ToString().ToLowerInvariant(), ["nugget"] = model.Nugget, ["partialSill"] = model.PartialSill, ["range"] = model.Range,
            ["fitted"] = fit is not null, ["squaredError"] = fit?.SquaredError,
        };
        if (fit is not null)
        {
            json["bins"] = new JsonArray([.. VariogramBins.Of(samples).Select(b => new JsonObject { ["pairs"] = b.Pairs, ["distance"] = b.Distance, ["gamma"] = b.Gamma })]);
            session.Note(FormattableString.Invariant($"Fitted variogram: {model.Shape.ToString().ToLowerInvariant()}, nugget {model.Nugget:g6}, rise above it {model.PartialSill:g6}, range {model.Range:g6}."));
        }

        return model;
    }

    private static VariogramFit FitTo(ParseResult parse, IReadOnlyList<SamplePoint> samples, VariogramShape shape)
    {
        try
        {
            return VariogramFit.To(VariogramBins.Of(samples), shape);
        }
        catch (ArgumentException)
        {
            throw new RefusedInputException([new Problem(Severity.Error, parse.GetValue(Points), null, null, null, "variogram-points",
                "The points are too few or too alike to fit a variogram. Give one with --variogram, or use --method idw.")]);
        }
    }

    private static VariogramModel? Model(string text)
    {
        var parts = text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length != 4) return null;
        VariogramShape? shape = parts[0].ToLowerInvariant() switch
        {
            "spherical" or "sph" => VariogramShape.Spherical,
            "exponential" or "exp" => VariogramShape.Exponential,
            "gaussian" or "gau" => VariogramShape.Gaussian,
            _ => null,
        };
        var numbers = new double[3];
        for (var i = 0; i < 3; i++)
        {
            if (!double.TryParse(parts[i + 1], NumberStyles.Float, CultureInfo.InvariantCulture, out numbers[i]) || !double.IsFinite(numbers[i])) return null;
        }

        var valid = shape is not null && numbers[0] >= 0 && numbers[1] >= 0 && numbers[0] + numbers[1] > 0 && numbers[2] > 0;
        return valid ? new VariogramModel(shape!.Value, numbers[0], numbers[1], numbers[2]) : null;
    }

    private static JsonObject Point(NamedPlace place, KrigingEstimate e) => new()
    {
        ["id"] = place.Id, ["x"] = place.At.X, ["y"] = place.At.Y, ["value"] = e.Value,
        ["variance"] = Finite(e.Variance), ["deviation"] = Finite(Math.Sqrt(e.Variance)),
    };

    private static JsonObject Score(CrossValidation score) => new()
    {
        ["meanError"] = score.MeanError, ["rootMeanSquare"] = score.RootMeanSquare, ["meanZ"] = Finite(score.MeanZ), ["deviationZ"] = Finite(score.DeviationZ),
    };

    private static JsonNode? Finite(double value) => double.IsFinite(value) ? value : null;

    private static string Csv(IReadOnlyList<NamedPlace> places, KrigingEstimate[] estimates)
    {
        var ids = places.Any(p => p.Id is not null);
        var text = new StringBuilder(ids ? "id,x,y,value,deviation\n" : "x,y,value,deviation\n");
        foreach (var (place, e) in places.Zip(estimates))
        {
            if (ids) text.Append(CsvOut.Cell(place.Id ?? "")).Append(',');
            text.Append(CultureInfo.InvariantCulture, $"{place.At.X:R},{place.At.Y:R},{e.Value:R},");
            if (double.IsFinite(e.Variance)) text.Append(CultureInfo.InvariantCulture, $"{Math.Sqrt(e.Variance):R}");
            text.Append('\n');
        }

        return text.ToString();
    }
}
