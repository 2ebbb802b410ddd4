using System.Globalization;

namespace StoreMap.Sheets;

/// <summary>Days and times as sheets print them (ISO 8601).</summary>
internal static class Days
{
    public static string Of(DateTimeOffset time) => time.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Of(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Clock(DateTimeOffset time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);
}
