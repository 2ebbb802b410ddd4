using System.Globalization;
using System.Text;

namespace StoreMap.Plans;

/// <summary>Makes ids for a layout built of names from elsewhere: what an id may not hold becomes a dash, and no id is given twice.</summary>
internal sealed class NewIds
{
    private const int MostId = 32;
    private const int MostLayoutId = 64;

    private readonly HashSet<string> taken = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> counts = new(StringComparer.Ordinal);

    /// <summary>A free id for a name; when the name itself is taken, one with a prefix, then a number.</summary>
    public string Id(string name, string prefix)
    {
        var plain = Plain(name, char.IsAsciiLetterOrDigit, "._-", MostId);
        if (plain.Trim('-').Length > 0 && taken.Add(plain)) return plain;
        for (var n = 1; ; n++)
        {
            var tail = n == 1 ? "" : $"-{n}";
            var stem = prefix + plain;
            var id = stem[..Math.Min(stem.Length, MostId - tail.Length)] + tail;
            if (taken.Add(id)) return id;
        }
    }

    /// <summary>The next free id of a letter and a number: <c>G1</c>, <c>G2</c> ….</summary>
    public string Next(string letter)
    {
        for (var n = counts.GetValueOrDefault(letter) + 1; ; n++)
        {
            counts[letter] = n;
            var id = string.Create(CultureInfo.InvariantCulture, $"{letter}{n}");
            if (taken.Add(id)) return id;
        }
    }

    /// <summary>A layout's id made of a file's or store's name.</summary>
    public static string LayoutId(string? name)
    {
        var stem = name ?? "";
        stem = stem[(stem.LastIndexOfAny(['/', '\\']) + 1)..];
        var dot = stem.IndexOf('.', StringComparison.Ordinal);
        var plain = Plain((dot > 0 ? stem[..dot] : stem).ToLowerInvariant(), c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c), "-", MostLayoutId).Trim('-');
        return plain.Length > 0 ? plain : "case-list";
    }

    private static string Plain(string name, Func<char, bool> allowed, string also, int most)
    {
        var plain = new StringBuilder();
        foreach (var c in name)
        {
            if (plain.Length < most) plain.Append(allowed(c) || also.Contains(c, StringComparison.Ordinal) ? c : '-');
        }

        return plain.ToString();
    }
}
