using System.Globalization;

namespace StoreMap.Routing;

/// <summary>Gives probe points readable ids of at most 32 characters, each once.</summary>
internal sealed class ProbeIds
{
    private const int Longest = 32;
    private readonly HashSet<string> taken = new(StringComparer.Ordinal);

    /// <summary>An owner's id, a hyphen and a suffix; a long owner is cut, and a clash is numbered from 2.</summary>
    public string Take(string owner, string suffix)
    {
        for (var n = 1; ; n++)
        {
            var tail = string.Create(CultureInfo.InvariantCulture, $"-{suffix}{(n == 1 ? "" : $".{n}")}");
            var id = owner[..Math.Min(owner.Length, Longest - tail.Length)] + tail;
            if (taken.Add(id)) return id;
        }
    }
}
