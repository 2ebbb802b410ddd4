namespace StoreMap.Plans;

/// <summary>Other names for the columns of a CSV, such as <c>time=timestamp,ppm=conc</c>.</summary>
public static class ColumnMapping
{
    /// <summary>Reads a mapping.</summary>
    /// <param name="text">Parts <c>ours=theirs</c>, separated by commas.</param>
    /// <param name="names">The names of ours.</param>
    /// <returns>Theirs by ours.</returns>
    /// <exception cref="RefusedInputException">A part is not <c>ours=theirs</c>, or names no column of ours; all such parts at once.</exception>
    public static IReadOnlyDictionary<string, string> Parse(string text, IReadOnlyList<string> names)
    {
        var columns = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        var errors = new List<Problem>();
        foreach (var part in text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            var ours = equals < 0 ? part : part[..equals].Trim();
            var theirs = equals < 0 ? "" : part[(equals + 1)..].Trim();
            if (theirs.Length == 0 || !names.Contains(ours, StringComparer.OrdinalIgnoreCase) || !columns.TryAdd(ours, theirs))
            {
                errors.Add(new Problem(Severity.Error, null, null, "columns", part, "column-mapping",
                    $"A column mapping is written ours=theirs, each of ours once, such as {names[0]}=abc. Ours are: " + string.Join(", ", names) + "."));
            }
        }

        return errors.Count == 0 ? columns : throw new RefusedInputException(errors);
    }
}
