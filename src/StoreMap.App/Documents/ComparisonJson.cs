using System.Text.Json.Nodes;
using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.App.Documents;

/// <summary>The document of <c>compare --json</c>; lengths in the layout's units, weights in pounds.</summary>
internal static class ComparisonJson
{
    public static JsonObject Of(Plan plan, Comparison comparison)
    {
        var to = new UnitsOut(plan.Units);
        return new JsonObject
        {
            ["units"] = plan.Units.Symbol(),
            ["dates"] = UnitsOut.Strings(comparison.Dates.Select(UnitsOut.Day)),
            ["zones"] = new JsonArray([.. comparison.Zones.Select(z => Zone(z, to))]),
            ["sources"] = new JsonArray([.. comparison.Sources.Select(s => new JsonObject
            {
                ["near"] = s.Near, ["change"] = s.Change.Kebab(), ["seen"] = UnitsOut.Strings(s.Seen.Select(UnitsOut.Day)),
                ["at"] = s.At is { } at ? to.Point(at) : null, ["look"] = s.Look, ["note"] = s.Note,
            })]),
            ["notComparable"] = new JsonArray([.. comparison.NotComparable.Select(n => new JsonObject
            {
                ["fixture"] = n.Fixture, ["dates"] = UnitsOut.Strings(n.Dates.Select(UnitsOut.Day)), ["reason"] = n.Reason,
            })]),
            ["balances"] = new JsonArray([.. comparison.Balances.Select(Balance)]),
        };
    }

    private static JsonObject Zone(ZoneHistory z, UnitsOut to) => new()
    {
        ["fixture"] = z.Fixture,
        ["from"] = z.From is { } from ? to.Length(from) : null,
        ["to"] = z.To is { } end ? to.Length(end) : null,
        ["change"] = z.Change.Kebab(),
        ["visits"] = new JsonArray([.. z.Visits.Select(v => new JsonObject
        {
            ["date"] = UnitsOut.Day(v.Date), ["peakPpm"] = v.PeakPpm is { } ppm ? Math.Round(ppm, 2) : null, ["hit"] = v.Hit, ["atLeast"] = v.AtLeast, ["below"] = v.Below,
        })]),
        ["trend"] = z.Trend is { } t ? new JsonObject { ["s"] = t.S, ["p"] = Math.Round(t.P, 4), ["ppmPerMonth"] = Math.Round(t.SlopePerMonth, 3) } : null,
        ["service"] = z.Service,
        ["note"] = z.Note,
    };

    private static JsonObject Balance(MassBalance b) => new()
    {
        ["system"] = b.System,
        ["refrigerant"] = b.Refrigerant,
        ["days"] = b.Days,
        ["addedLb"] = UnitsOut.Pounds(b.AddedKilograms),
        ["explainedLbLow"] = UnitsOut.Pounds(b.ExplainedLowKilograms),
        ["explainedLbHigh"] = UnitsOut.Pounds(b.ExplainedHighKilograms),
        ["annualisedPercent"] = b.AnnualisedPercent is { } p ? Math.Round(p, 2) : null,
        ["addsUp"] = b.AddsUp,
        ["sourcesNear"] = UnitsOut.Strings(b.SourcesNear),
        ["notChecked"] = UnitsOut.Strings(b.NotChecked),
    };
}
