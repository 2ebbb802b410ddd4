using System.Text.Json;

namespace StoreMap.Plans;

/// <summary>The kebab-case names under which enumerations stand in files and commands: <c>OpenCase</c> is <c>open-case</c>.</summary>
public static class KebabNames
{
    /// <summary>The file name of a value.</summary>
    public static string Kebab<T>(this T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>The value a file name stands for, exact match; null when there is none.</summary>
    public static T? Parse<T>(string? name)
        where T : struct, Enum
    {
        foreach (var value in Enum.GetValues<T>())
        {
            if (value.Kebab() == name) return value;
        }

        return null;
    }

    /// <summary>All file names, comma-separated, for messages.</summary>
    public static string All<T>()
        where T : struct, Enum => string.Join(", ", Enum.GetValues<T>().Select(v => v.Kebab()));
}
