namespace StoreMap.Plans;

/// <summary>Collects what is wrong with one input, in the order found; bounded, so that a hostile file cannot fill the memory.</summary>
/// <param name="file">The file's name for every problem; null when it has none.</param>
internal sealed class ProblemList(string? file)
{
    /// <summary>Problems kept of each severity.</summary>
    public const int Most = 1000;

    private const int ValueLength = 80;

    private readonly List<Problem> items = [];
    private int errors;
    private int warnings;

    /// <summary>True when anything makes an answer wrong.</summary>
    public bool HasErrors => errors > 0;

    /// <summary>True when no more errors are kept: a rule may stop looking.</summary>
    public bool Full => errors >= Most;

    /// <summary>All problems kept, in the order found; the last ones say how many were left out.</summary>
    public IReadOnlyList<Problem> All
    {
        get
        {
            var all = items.ToList();
            if (errors > Most) all.Add(LeftOut(Severity.Error, errors - Most));
            if (warnings > Most) all.Add(LeftOut(Severity.Warning, warnings - Most));
            return all;
        }
    }

    /// <summary>Adds an error.</summary>
    public void Error(string? element, string? field, string? value, string rule, string message)
    {
        if (errors++ < Most) Keep(Severity.Error, element, field, value, rule, message);
    }

    /// <summary>Adds a warning.</summary>
    public void Warn(string? element, string? field, string? value, string rule, string message)
    {
        if (warnings++ < Most) Keep(Severity.Warning, element, field, value, rule, message);
    }

    private void Keep(Severity severity, string? element, string? field, string? value, string rule, string message)
    {
        var shown = value is { Length: > ValueLength } ? string.Concat(value.AsSpan(0, ValueLength - 1), "…") : value;
        items.Add(new Problem(severity, file, element, field, shown, rule, message));
    }

    private Problem LeftOut(Severity severity, int count) => new(
        severity, file, null, null, null, "more-problems", $"{count} more of this severity are not listed; mend the ones above and check again.");
}
