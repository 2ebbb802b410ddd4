using System.Globalization;

namespace StoreMap.History;

/// <summary>Days and numbers as sentences of this room say them.</summary>
internal static class Words
{
    public static string Date(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Days, such as <c>2026-05-10, 2026-06-12 and 2026-07-09</c>.</summary>
    public static string Dates(IReadOnlyList<DateOnly> dates) => And([.. dates.Select(Date)]);

    /// <summary>Joins words: <c>a, b and c</c>.</summary>
    public static string And(IReadOnlyList<string> words) =>
        words.Count < 2 ? string.Concat(words) : $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}";

    /// <summary>A concentration: one decimal under 10 ppm, none above.</summary>
    public static string Ppm(double ppm) => ppm.ToString(Math.Abs(ppm) < 9.95 ? "0.#" : "0", CultureInfo.InvariantCulture) + " ppm";

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
