using System.Globalization;
using System.Text.Json.Nodes;

namespace StoreMap.Web.Shared;

/// <summary>What a journal says of a panel that was lifted.</summary>
internal static class PanelNote
{
    /// <summary>The entry's body.</summary>
    /// <param name="look">Panel id, whether it leaks there, what (may be empty), and the day on which it was found; null for when it is noted.</param>
    /// <param name="today">The day on which it is noted.</param>
    public static JsonObject Of((string Panel, bool Leak, string Component, DateOnly? Day) look, DateOnly today)
    {
        var body = new JsonObject { ["panel"] = look.Panel, ["leak"] = look.Leak };
        if (look.Component.Length > 0) body["component"] = look.Component;
        if (look.Day is { } day && day != today) body["day"] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return body;
    }
}
