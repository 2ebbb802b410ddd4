using System.Text.Json;
using System.Text.RegularExpressions;

namespace StoreMap.Sheets;

/// <summary>Puts sentences that other parts of the engine wrote in English into another language: an English phrase with places for
/// values ({0}, {1}, …) leads to the same phrase in the language, and what stands in the places is put over in the same way.</summary>
internal sealed partial class PhraseBook
{
    /// <summary>A phrase with fewer letters of its own, as "{0} and {1}", only joins what stands in another's place.</summary>
    private const int LettersOfASentence = 5;

    private readonly List<(Regex English, int Letters, string Other)> phrases;

    private PhraseBook(IEnumerable<KeyValuePair<string, string>> phrases)
    {
        // What has most letters of its own says most: "{0} and {1}" stands behind all that it is part of.
        this.phrases = [.. phrases.Select(p => (Pattern(p.Key), Letters: Places().Replace(p.Key, "").Count(char.IsLetter), p.Value, p.Key))
            .OrderByDescending(p => p.Letters).ThenBy(p => p.Key, StringComparer.Ordinal).Select(p => (p.Item1, p.Letters, p.Value))];
    }

    /// <summary>The phrases of a language; none where it has no book.</summary>
    public static PhraseBook For(string language)
    {
        using var stream = typeof(PhraseBook).Assembly.GetManifestResourceStream($"sheet-phrases.{language}.json");
        if (stream is null) return new PhraseBook([]);
        using var document = JsonDocument.Parse(stream);
        return new PhraseBook([.. document.RootElement.EnumerateObject().Select(p => KeyValuePair.Create(p.Name, p.Value.GetString()!))]);
    }

    /// <summary>The text in the language; null when a part of it is not in the book.</summary>
    public string? Of(string text) => Part(text, LettersOfASentence) ?? Pieces(text, Semicolon()) ?? Pieces(text, SentenceEnd());

    private string? Pieces(string text, Regex between)
    {
        var pieces = between.Split(text);
        if (pieces.Length < 2) return null;
        var said = pieces.Select(Of).ToList();
        return said.Contains(null) ? null : string.Join(between == Semicolon() ? "; " : " ", said);
    }

    private string? Part(string text, int leastLetters)
    {
        foreach (var (english, letters, other) in phrases)
        {
            if (letters < leastLetters || english.Match(text) is not { Success: true } match) continue;
            return Places().Replace(other, place =>
            {
                // A name or a number stays as it is.
                var value = match.Groups["p" + place.Groups[1].Value].Value;
                return Part(value, 0) ?? value;
            });
        }

        return null;
    }

    private static Regex Pattern(string english)
    {
        var pattern = Regex.Escape(english).Replace("\\{", "{", StringComparison.Ordinal);
        return new Regex("^" + Places().Replace(pattern, m => $"(?<p{m.Groups[1].Value}>(?:(?!; |\\. \\p{{Lu}}).)+?)") + "$", RegexOptions.CultureInvariant | RegexOptions.Singleline);
    }

    [GeneratedRegex(@"\{(\d)\}")]
    private static partial Regex Places();

    [GeneratedRegex("; ")]
    private static partial Regex Semicolon();

    [GeneratedRegex(@"(?<=\.) (?=\p{Lu})")]
    private static partial Regex SentenceEnd();
}
