using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>What a monitor's number says, before the monitor's own limits are known.</summary>
/// <param name="Number">The number written; null for <c>over</c>.</param>
/// <param name="Bound">Exact unless written <c>&lt;n</c>, <c>&gt;n</c> or <c>over</c>.</param>
internal readonly record struct PpmText(double? Number, ReadingBound Bound)
{
    /// <summary>Larger numbers are no concentration of a hand-held monitor: a million ppm is pure gas.</summary>
    public const double MostPpm = 1_000_000;

    /// <summary>Reads <c>12</c>, <c>0</c>, <c>&lt;1</c>, <c>&gt;1000</c>, <c>over</c>; null when the text is none of these.</summary>
    public static PpmText? Parse(string text, CsvNumbers numbers)
    {
        var rest = text.AsSpan().Trim();
        if (rest.EndsWith("ppm", StringComparison.OrdinalIgnoreCase)) rest = rest[..^3].TrimEnd();
        if (rest.Equals("over", StringComparison.OrdinalIgnoreCase)) return new PpmText(null, ReadingBound.AtLeast);
        var bound = ReadingBound.Exact;
        if (rest.StartsWith("<") || rest.StartsWith(">"))
        {
            bound = rest[0] == '<' ? ReadingBound.Below : ReadingBound.AtLeast;
            rest = rest[1..].TrimStart();
        }

        if (numbers.Parse(rest) is not { } number || Math.Abs(number) > MostPpm) return null;
        return bound != ReadingBound.Exact && number <= 0 ? null : new PpmText(number, bound);
    }

    /// <summary>The value and bound that a monitor's limits make of it.</summary>
    /// <param name="detectionPpm">Numbers under this are below the limit.</param>
    /// <param name="rangePpm">Numbers from this on are over range.</param>
    public (double Ppm, ReadingBound Bound) Within(double detectionPpm, double rangePpm) => this switch
    {
        { Number: null } => (rangePpm, ReadingBound.AtLeast),
        { Bound: not ReadingBound.Exact, Number: { } n } => (n, Bound),
        { Number: { } n } when n < detectionPpm => (detectionPpm, ReadingBound.Below),
        { Number: { } n } when n >= rangePpm => (rangePpm, ReadingBound.AtLeast),
        _ => (Number.Value, ReadingBound.Exact),
    };
}
