using System.Globalization;
using System.Text.Json;

namespace StoreMap.Sheets;

/// <summary>The words of the sheets in one language, from one file per language; English fills what a language lacks.</summary>
internal sealed class Words
{
    private static readonly Lazy<Words> EnglishWords = new(() => new Words(Read("en")!, null));
    private readonly Dictionary<string, string> texts;
    private readonly Words? fallback;

    private Words(Dictionary<string, string> texts, Words? fallback)
    {
        this.texts = texts;
        this.fallback = fallback;
    }

    /// <summary>English.</summary>
    public static Words English => EnglishWords.Value;

    /// <summary>All keys of this language's own file, sorted.</summary>
    public IReadOnlyList<string> Keys => [.. texts.Keys.Order(StringComparer.Ordinal)];

    /// <summary>A text.</summary>
    /// <exception cref="KeyNotFoundException">No language has the key: a mistake in the program.</exception>
    public string this[string key] =>
        texts.TryGetValue(key, out var text) ? text
        : fallback is not null ? fallback[key]
        : throw new KeyNotFoundException($"The sheets have no words for '{key}'.");

    /// <summary>The words of a language; English when there is no file for it.</summary>
    public static Words For(string language) =>
        language != "en" && Read(language) is { } own ? new Words(own, English) : English;

    /// <summary>A text with values put in for {0}, {1}, …; numbers must come as text already.</summary>
    public string Say(string key, params object[] values) => string.Format(CultureInfo.InvariantCulture, this[key], values);

    private static Dictionary<string, string>? Read(string language)
    {
        using var stream = typeof(Words).Assembly.GetManifestResourceStream($"sheet-words.{language}.json");
        if (stream is null) return null;
        using var document = JsonDocument.Parse(stream);
        return document.RootElement.EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetString()!, StringComparer.Ordinal);
    }
}
