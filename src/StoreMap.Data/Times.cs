using System.Globalization;

namespace StoreMap.Data;

/// <summary>Moments as the database keeps them: UTC text that sorts by time.</summary>
internal static class Times
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    public static string Text(DateTimeOffset time) => time.UtcDateTime.ToString(Format, CultureInfo.InvariantCulture);

    public static DateTimeOffset Of(string text) => DateTimeOffset.ParseExact(text, Format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
