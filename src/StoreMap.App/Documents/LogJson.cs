using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.App.Documents;

/// <summary>The document of <c>log --json</c>; lengths in the layout's units.</summary>
internal static class LogJson
{
    public static JsonObject Of(Plan plan, string file, NetSurvey net, AlignedLog? aligned, IReadOnlyList<GoBackHit> places)
    {
        var to = new UnitsOut(plan.Units);
        var json = new JsonObject
        {
            ["survey"] = file,
            ["units"] = plan.Units.Symbol(),
            ["readings"] = net.Readings.Count,
            ["hits"] = net.Readings.Count(r => r.IsHit),
            ["carryOver"] = net.Readings.Count(r => r.CarryOver),
            ["hitOnly"] = net.Readings.Count(r => r.HitOnly),
            ["rooms"] = new JsonArray([.. net.Rooms.Select(r => new JsonObject
            {
                ["room"] = r.Room, ["name"] = r.Name, ["ppm"] = Math.Round(r.Ppm, 2), ["raised"] = r.Raised, ["reason"] = r.Reason,
            })]),
        };
        if (aligned is null) return json;
        json["delaySeconds"] = Math.Round(aligned.DelaySeconds, 2);
        json["lag"] = aligned.Lag is not { } lag ? null : new JsonObject
        {
            ["seconds"] = Math.Round(lag.Seconds, 2), ["deviation"] = Math.Round(lag.DeviationSeconds, 2), ["count"] = lag.Count, ["from"] = lag.How,
        };
        json["clockOffsetSeconds"] = aligned.ClockOffsetSeconds is { } clock ? Math.Round(clock, 2) : null;
        json["unplaced"] = aligned.Unplaced;
        json["goBack"] = new JsonArray([.. places.Select(p => Place(p, to))]);
        return json;
    }

    private static JsonObject Place(GoBackHit hit, UnitsOut to) => new()
    {
        ["time"] = hit.Hit.Reading.Time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", System.Globalization.CultureInfo.InvariantCulture),
        ["netPpm"] = Math.Round(hit.Hit.NetPpm, 2),
        ["fixture"] = hit.Place.Place.Fixture,
        ["along"] = hit.Place.Place.Along is { } along ? to.Length(along) : null,
        ["at"] = to.Point(hit.Place.Place.At),
        ["back"] = to.Length(hit.Place.WalkedMetres),
        ["nearest"] = UnitsOut.Strings(hit.Place.Nearest.Select(p => p.Id)),
    };
}
