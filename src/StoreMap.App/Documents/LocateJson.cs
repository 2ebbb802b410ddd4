using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.App.Documents;

/// <summary>The document of <c>locate --json</c>; lengths in the layout's units.</summary>
internal static class LocateJson
{
    public static JsonObject Of(Plan plan, LocateResult result)
    {
        var to = new UnitsOut(plan.Units);
        return new JsonObject
        {
            ["units"] = plan.Units.Symbol(),
            ["zones"] = new JsonArray([.. result.Zones.Select(z => Zone(z, to))]),
            ["open"] = UnitsOut.Strings(result.Open),
            ["elsewhere"] = new JsonArray([.. result.Elsewhere.Select(e => new JsonObject
            {
                ["near"] = e.Near, ["probability"] = Round(e.Probability), ["look"] = e.Look, ["at"] = e.At is { } at ? to.Point(at) : null,
            })]),
            ["noLeakSeen"] = new JsonArray([.. result.NoLeakSeen.Select(Quiet)]),
            ["notProbed"] = UnitsOut.Strings(result.NotProbed),
            ["next"] = result.Next is { } next ? Next(next, to) : null,
        };
    }

    private static JsonObject Zone(LeakZone z, UnitsOut to)
    {
        var json = new JsonObject { ["fixture"] = z.Fixture, ["probability"] = Round(z.Probability), ["level"] = z.Level };
        if (z.Center is null)
        {
            json["at"] = to.Point(z.At);
            json["radius"] = to.Length(z.Radius ?? 0);
        }
        else
        {
            json["from"] = to.Length(z.From!.Value);
            json["to"] = to.Length(z.To!.Value);
            json["center"] = to.Length(z.Center.Value);
        }

        json["peakPpm"] = Round(z.PeakPpm);
        if (z.PeakOverRange) json["peakOverRange"] = true;
        json["strength"] = z.Strength;
        json["strengthLbPerYearLow"] = UnitsOut.Pounds(z.StrengthLowKilogramsPerYear);
        json["strengthLbPerYearHigh"] = UnitsOut.Pounds(z.StrengthHighKilogramsPerYear);
        json["reason"] = z.Reason;
        json["panels"] = new JsonArray([.. z.Panels.Select(p => new JsonObject
        {
            ["id"] = p.Id, ["from"] = to.Length(p.From), ["to"] = to.Length(p.To), ["probability"] = Round(p.Probability),
        })]);
        return json;
    }

    private static JsonObject Quiet(NoLeakSeen n)
    {
        var json = new JsonObject
        {
            ["fixture"] = n.Fixture,
            ["probability"] = Round(n.Probability),
            ["smallestSeen"] = new JsonObject
            {
                ["ppm"] = Round(n.SmallestSeenPpm),
                ["lbPerYearLow"] = UnitsOut.Pounds(n.LowKilogramsPerYear),
                ["lbPerYearHigh"] = UnitsOut.Pounds(n.HighKilogramsPerYear),
            },
        };
        if (n.ExplainedBy is { } cause) json["explainedBy"] = cause;
        return json;
    }

    private static JsonObject Next(NextProbe n, UnitsOut to) => new()
    {
        ["fixture"] = n.Fixture, ["at"] = to.Point(n.At), ["along"] = n.Along is { } along ? to.Length(along) : null,
        ["spot"] = n.Spot.Kebab(), ["air"] = n.Air.Kebab(), ["gain"] = Round(n.Gain), ["why"] = n.Why,
    };

    private static double Round(double value) => Math.Round(value, 4);
}
