using System.Globalization;
using System.Text.Json;

namespace StoreMap.Sheets;

/// <summary>The words of the sheets in one language, from one file per language.</summary>
internal sealed class Words
{
    private static readonly string[] Known = ["en", "de"];
    private static readonly Lazy<Words> EnglishWords = new(() => new Words("en"));
    private readonly string language;
    private readonly Dictionary<string, string> texts;
    private readonly Lazy<PhraseBook> phrases;

    private Words(string language)
    {
        this.language = language;
        phrases = new Lazy<PhraseBook>(() => PhraseBook.For(language));
        using var stream = typeof(Words).Assembly.GetManifestResourceStream($"sheet-words.{language}.json")!;
        using var document = JsonDocument.Parse(stream);
        texts = document.RootElement.EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetString()!, StringComparer.Ordinal);
    }

    /// <summary>Codes of the languages there are words in, English first.</summary>
    public static IReadOnlyList<string> Languages => Known;

    /// <summary>English.</summary>
    public static Words English => EnglishWords.Value;

    /// <summary>All keys, sorted.</summary>
    public IReadOnlyList<string> Keys => [.. texts.Keys.Order(StringComparer.Ordinal)];

    /// <summary>A text.</summary>
    /// <exception cref="KeyNotFoundException">The language lacks the key: a mistake in the program.</exception>
    public string this[string key] => texts.TryGetValue(key, out var text) ? text : throw new KeyNotFoundException($"The sheets have no words for '{key}'.");

    /// <summary>The words of a language; English where there are none.</summary>
    public static Words For(string language) => language != "en" && Known.Contains(language) ? new Words(language) : English;

    /// <summary>A text with values put in for {0}, {1}, …; numbers must come as text already.</summary>
    public string Say(string key, params object[] values) => string.Format(CultureInfo.InvariantCulture, this[key], values);

    /// <summary>A chance in words that promise no more than is known: "about 8 in 10".</summary>
    public string Chance(double probability) => probability switch
    {
        >= 0.985 => this["chance.certain"],
        >= 0.95 => this["chance.more-than-9"],
        < 0.05 => this["chance.under-1-in-20"],
        < 0.085 => this["chance.1-in-15"],
        < 0.15 => this["chance.1-in-10"],
        _ => Say("chance.of-10", Numbers.Whole(probability * 10)),
    };

    /// <summary>The text with a capital at its beginning.</summary>
    public static string Sentence(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>A level that a layout names, in this language where it is a usual one.</summary>
    public string Level(string level) => texts.GetValueOrDefault("level." + level, level);

    /// <summary>Why a probe point was passed over, in this language where it is a usual reason.</summary>
    public string SkipReason(string reason) => texts.GetValueOrDefault("skip." + reason.Replace(' ', '-'), reason);

    /// <summary>What is off, open or muted, in this language where it is of a known kind.</summary>
    public string LeftOff(string what) => texts.GetValueOrDefault("off." + what, what);

    /// <summary>What went on in a room; what is not known stays as it was noted.</summary>
    public string Activity(string what) => texts.GetValueOrDefault("activity." + what.Replace(' ', '-'), what);

    /// <summary>A sentence that another part of the program wrote in English, in this language; marked as English where the phrase book
    /// lacks it.</summary>
    public string Remark(string sentence) =>
        language == "en" || sentence.Length == 0 ? sentence : phrases.Value.Of(sentence) ?? Say("remark.english", sentence);
}
