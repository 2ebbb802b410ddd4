using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.History;

namespace StoreMap.App.Commands;

/// <summary><c>trend</c>: is a series rising or falling, and how fast.</summary>
internal static class TrendCommand
{
    private const double Significant = 0.05;
    private static readonly Argument<string> Series = new("series") { Description = "Values over time: t,value and, for several series, series. t is a number or a date; empty or NaN is missing." };
    private static readonly Option<string?> Columns = new("--columns") { Description = "Other column names, such as series=case,t=date,value=ppm.", HelpName = "NAMES" };

    public static Command Create(Host host)
    {
        var command = new Command("trend", "Tests each series for a steady rise or fall (Mann-Kendall) and gives its slope (median of all pairs' slopes).") { Series, Columns };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var file = parse.GetValue(Series)!;
        using var stream = InputFile.Open(file);
        var trends = SeriesTrend.Read(stream, file, parse.GetValue(Columns) is { } names ? SeriesTrend.ParseColumns(names) : null);
        session.Document(() => new JsonObject { ["series"] = new JsonArray([.. trends.Select(One)]) });
        foreach (var t in trends)
        {
            session.Say(FormattableString.Invariant($"{(t.Series is null ? "" : t.Series + ": ")}{Word(t)}, {t.Kendall.Count} values, S {t.Kendall.S}, p {t.Kendall.P:0.0###}{(t.Kendall.Exact ? " (exact)" : "")}")
                + (double.IsNaN(t.Sen.Slope) ? "" : FormattableString.Invariant($", slope {t.Sen.Slope:g5} {(t.Dated ? "a day" : "per unit of t")}")));
        }
    }

    private static string Word(SeriesTrend t) => t.Kendall.P >= Significant ? "no trend shown" : t.Kendall.S > 0 ? "rising" : "falling";

    private static JsonObject One(SeriesTrend t) => new()
    {
        ["series"] = t.Series,
        ["n"] = t.Kendall.Count,
        ["missing"] = t.Missing,
        ["s"] = t.Kendall.S,
        ["variance"] = t.Kendall.Variance,
        ["z"] = t.Kendall.Z,
        ["p"] = t.Kendall.P,
        ["exact"] = t.Kendall.Exact,
        ["tau"] = t.Kendall.Tau,
        ["slope"] = Finite(t.Sen.Slope),
        ["intercept"] = Finite(t.Sen.Intercept),
        ["slopePer"] = t.Dated ? "day" : "t",
        ["trend"] = t.Kendall.P >= Significant ? "none" : t.Kendall.S > 0 ? "rising" : "falling",
    };

    private static JsonNode? Finite(double value) => double.IsFinite(value) ? value : null;
}
