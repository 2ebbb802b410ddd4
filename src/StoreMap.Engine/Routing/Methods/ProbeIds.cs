using System.Globalization;

namespace StoreMap.Routing;

/// <summary>Gives readable ids of at most 32 of [A-Za-z0-9._-], each once.</summary>
internal sealed class ProbeIds
{
    private const int Longest = 32;
    private readonly HashSet<string> taken = new(StringComparer.Ordinal);

    /// <summary>A prefix, the owner's id and a suffix; a long owner is cut, other characters become hyphens, a clash is numbered from 2.</summary>
    public string Take(string prefix, string owner, string suffix)
    {
        var name = string.Concat(owner.Select(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '_' or '-' ? c : '-'));
        for (var n = 1; ; n++)
        {
            var tail = n == 1 ? suffix : string.Create(CultureInfo.InvariantCulture, $"{suffix}.{n}");
            var id = prefix + name[..Math.Min(name.Length, Longest - prefix.Length - tail.Length)] + tail;
            if (taken.Add(id)) return id;
        }
    }
}
