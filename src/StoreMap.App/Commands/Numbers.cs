using System.CommandLine.Parsing;
using System.Globalization;

namespace StoreMap.App.Commands;

/// <summary>Lists of numbers on the command line.</summary>
internal static class Numbers
{
    /// <summary>Reads <c>1,2,5</c>.</summary>
    public static double[] List(ArgumentResult result)
    {
        var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        var parts = text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var numbers = new double[parts.Length];
        for (var i = 0; i < parts.Length; i++)
        {
            if (double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out numbers[i]) && double.IsFinite(numbers[i])) continue;
            result.AddError($"\"{parts[i]}\" is no number. Write numbers with a decimal point, separated by commas.");
            return [];
        }

        if (parts.Length is 0 or > 1000) result.AddError("Give one to a thousand numbers, separated by commas.");
        return numbers;
    }
}
