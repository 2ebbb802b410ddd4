using System.Globalization;
using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Sheets;

/// <summary>The hours of rooms and areas that a route enters, in words for the walk sheet.</summary>
internal static class RouteHours
{
    /// <summary>A store time, as 06:00.</summary>
    public static string Text(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>Hours of a place, as 21:00 to 07:00.</summary>
    public static string Text(Words words, TimedPlace place) =>
        string.Join(words["walk.and"], place.Hours.Select(h => words.Say("walk.from-to", Text(h.From), Text(h.To))));

    /// <summary>The places with hours that a route enters, whether a time to begin was given or not; null when there are none.</summary>
    public static string? Line(Plan plan, Route route, Words words)
    {
        List<string> places = [.. route.Points.SelectMany(p => EntryHours.At(plan, p)).DistinctBy(p => p.Id).Select(p => $"{p.Name} {Text(words, p)}")];
        return places.Count == 0 ? null : words.Say("walk.hours", string.Join("; ", places));
    }
}
