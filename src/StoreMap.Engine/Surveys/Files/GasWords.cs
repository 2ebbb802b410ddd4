using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads the refrigerant a monitor was set to.</summary>
internal static class GasWords
{
    /// <summary>The name as the standard writes it: <c>r448a</c> is R-448A, <c>CO2</c> is R-744. An unknown name is kept, with a warning.</summary>
    public static string Read(string text, string element, SurveyProblems problems)
    {
        if (Known(text) is { } name) return name;
        problems.Count(element, "gas", text, "reading-gas",
            "This refrigerant is not known; the name was kept as written. Names look like R-448A.");
        return text;
    }

    /// <summary>The name as the standard writes it; null for an unknown one.</summary>
    public static string? Known(string text)
    {
        var plain = Plain(text);
        return plain.Equals("CO2", StringComparison.OrdinalIgnoreCase)
            ? "R-744"
            : Refrigerant.All.FirstOrDefault(r => Plain(r.Name).Equals(plain, StringComparison.OrdinalIgnoreCase))?.Name;
    }

    private static string Plain(string text) =>
        text.Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal);
}
