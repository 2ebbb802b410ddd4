using System.Globalization;

namespace StoreMap.Surveys;

/// <summary>Collects what is wrong with one file; of each rule and field the first ones only, and then how many more there are.</summary>
internal sealed class SurveyProblems(string? file)
{
    private const int MostPerRule = 20;
    private readonly List<Problem> errors = [];
    private readonly List<Problem> warnings = [];
    private readonly Dictionary<(string, string?), int> counts = [];
    private readonly Dictionary<string, Tally> tallies = [];
    private readonly List<string> tallyOrder = [];

    /// <summary>Name of the file for messages.</summary>
    public string? File { get; } = file;

    public bool HasErrors => errors.Count > 0;

    public static string Row(int number) => "row " + number.ToString(CultureInfo.InvariantCulture);

    public void Add(IEnumerable<Problem> problems)
    {
        foreach (var p in problems) (p.Severity == Severity.Error ? errors : warnings).Add(p);
    }

    public void Error(string? element, string? field, string? value, string rule, string message) =>
        Keep(errors, Severity.Error, element, field, value, rule, message);

    public void Warn(string? element, string? field, string? value, string rule, string message) =>
        Keep(warnings, Severity.Warning, element, field, value, rule, message);

    /// <summary>Counts a thing that is said once, with the first place and the number of times.</summary>
    public void Count(string element, string? field, string? value, string rule, string message)
    {
        if (tallies.TryGetValue(rule, out var tally))
        {
            tally.Times++;
            return;
        }

        tallies[rule] = new Tally { Times = 1, First = new Problem(Severity.Warning, File, element, field, Short(value), rule, message) };
        tallyOrder.Add(rule);
    }

    /// <summary>All warnings, with "(n times)" where something was counted.</summary>
    public IReadOnlyList<Problem> Warnings() =>
    [
        .. Finish(warnings),
        .. tallyOrder.Select(rule => tallies[rule]).Select(t => t.Times == 1 ? t.First : t.First with
        {
            Message = t.First.Message + " First of " + t.Times.ToString(CultureInfo.InvariantCulture) + ".",
        }),
    ];

    /// <summary>Refuses the file when there was an error: errors in the order of its rows, then warnings.</summary>
    public void ThrowIfErrors()
    {
        if (HasErrors) throw new RefusedInputException([.. Finish(errors).OrderBy(RowOf), .. Warnings()]);
    }

    private static int RowOf(Problem problem)
    {
        if (problem.Element is not { } element) return int.MaxValue;
        return element.StartsWith("row ", StringComparison.Ordinal) && int.TryParse(element.AsSpan(4), out var row) ? row : 0;
    }

    private void Keep(
        List<Problem> list, Severity severity, string? element, string? field, string? value, string rule, string message)
    {
        var key = (rule, field);
        counts[key] = counts.GetValueOrDefault(key) + 1;
        if (counts[key] <= MostPerRule) list.Add(new Problem(severity, File, element, field, Short(value), rule, message));
    }

    private IEnumerable<Problem> Finish(List<Problem> list)
    {
        foreach (var p in list) yield return p;
        foreach (var group in list.GroupBy(p => (p.Rule, p.Field)))
        {
            var more = counts.GetValueOrDefault(group.Key) - group.Count();
            if (more <= 0) continue;
            yield return group.First() with
            {
                Element = null, Value = null,
                Message = "The same is wrong in " + more.ToString(CultureInfo.InvariantCulture) + " more places that are not listed.",
            };
        }
    }

    private static string? Short(string? value) => value is { Length: > 80 } ? value[..79] + "…" : value;

    private sealed class Tally
    {
        public int Times { get; set; }

        public required Problem First { get; init; }
    }
}
