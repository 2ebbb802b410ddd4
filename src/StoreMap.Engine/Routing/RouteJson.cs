using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>The machine-readable document of a route; lengths in the layout's units. Schema: docs/schemas/route.schema.json.</summary>
public static class RouteJson
{
    /// <summary>Writes a route.</summary>
    public static JsonObject Of(Route route, LengthUnit unit)
    {
        var json = new JsonObject
        {
            ["units"] = unit.Symbol(),
            ["points"] = new JsonArray([.. route.Points.Select(Point)]),
            ["order"] = new JsonArray([.. route.Order.Select(id => JsonValue.Create(id))]),
            ["closed"] = route.Closed,
            ["legs"] = new JsonArray([.. route.Legs.Select(l => new JsonObject
            {
                ["from"] = l.From, ["to"] = l.To, ["path"] = new JsonArray([.. l.Path.Select(Place)]), ["length"] = Length(l.Length),
            })]),
            ["length"] = Length(route.Length),
            ["lowerBound"] = Length(route.LowerBound),
            ["lowerBoundOf"] = route.BoundKeepsGroups ? "walks-that-keep-the-groups" : "any-order",
            ["minutes"] = Math.Round(route.Minutes.Total, 2),
            ["minutesBy"] = new JsonObject
            {
                ["walking"] = Math.Round(route.Minutes.Walking, 2),
                ["probing"] = Math.Round(route.Minutes.Probing, 2),
                ["handling"] = Math.Round(route.Minutes.Handling, 2),
                ["fixed"] = Math.Round(route.Minutes.Fixed, 2),
            },
            ["gasChanges"] = new JsonArray([.. route.GasChanges.Select(c => new JsonObject { ["before"] = c.Before, ["gas"] = c.Gas, ["minutes"] = c.Minutes })]),
            ["effort"] = route.Effort,
            ["cutShort"] = route.CutShort,
        };
        if (route.FirstGas is { } first) json["firstGas"] = first;
        if (route.MinutesLowerBound is { } least) json["minutesLowerBound"] = Math.Round(least, 2);
        if (route.Weighed is { } weighed) json["weighed"] = new JsonObject { ["length"] = Length(weighed.Metres), ["lowerBound"] = Length(weighed.LowerBound) };
        if (route.AnyOrderBound > 0) json["anyOrderLowerBound"] = Length(route.AnyOrderBound);
        if (route.Replanned is { } replanned) json["replanned"] = Replanned(replanned);
        if (route.Risk is { } risk) json["risk"] = Risk(risk);
        if (route.Forecast is { } forecast)
        {
            json["forecast"] = new JsonObject
            {
                ["expectedHits"] = Math.Round(forecast.ExpectedHits, 3), ["minutesPerHit"] = Math.Round(forecast.MinutesPerHit, 2), ["pace"] = Math.Round(forecast.Pace, 3),
                ["likelyMinutes"] = Math.Round(forecast.Likely, 1), ["badNightMinutes"] = Math.Round(forecast.BadNight, 1),
            };
        }

        if (route.Clock is { } clock)
        {
            json["clock"] = new JsonObject
            {
                ["begin"] = Hours(clock.Begin), ["end"] = Hours(clock.End), ["read"] = new JsonArray([.. clock.Read.Select(t => JsonValue.Create(t.ToString("HH:mm:ss", CultureInfo.InvariantCulture)))]),
                ["defrosts"] = new JsonArray([.. clock.Checks.Select(Check)]),
                ["hours"] = new JsonArray([.. clock.Visits.Select(Visit)]),
            };
            if (clock.Change is { } change)
                json["clock"]!["change"] = new JsonObject { ["length"] = Length(change.Metres), ["savingMinutes"] = Math.Round(change.MinutesSaved, 2), ["outsideBefore"] = change.OutsideBefore };
        }

        if (route.Kept is { } kept)
            json["keep"] = new JsonObject { ["kept"] = kept.IsKept, ["savingMinutes"] = Math.Round(kept.SavingMinutes, 2), ["leastSaving"] = kept.LeastSaving };
        return json;

        static string Hours(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

        JsonObject Check(TimedCheck c) => new()
        {
            ["circuit"] = c.Circuit, ["kind"] = c.Kind.Kebab(), ["cooling"] = c.Cooling, ["air"] = AirState.FansOff.Kebab(), ["from"] = Hours(c.From), ["to"] = Hours(c.To),
            ["at"] = c.At is { } at ? Hours(at) : null, ["after"] = c.After, ["points"] = new JsonArray([.. c.Points.Select(id => JsonValue.Create(id))]),
            ["length"] = Length(c.Metres), ["minutes"] = Math.Round(c.Minutes, 2),
        };

        JsonObject Visit(TimedVisit v) => new()
        {
            ["kind"] = v.Kind.Kebab(), ["place"] = v.Place.Id, ["entry"] = new JsonArray([.. v.Place.Hours.Select(h => new JsonArray(Hours(h.From), Hours(h.To)))]),
            ["before"] = v.Before, ["at"] = Hours(v.At), ["waitMinutes"] = Math.Round(v.WaitMinutes, 2),
        };

        JsonObject Replanned(RouteReplanned r) => new()
        {
            ["at"] = Place(r.At),
            ["home"] = r.Home is { } home ? Point(home) : null,
            ["done"] = r.Done,
            ["unreachable"] = new JsonArray([.. r.Unreachable.Select(id => JsonValue.Create(id))]),
            ["added"] = new JsonArray([.. r.Added.Select(id => JsonValue.Create(id))]),
            ["reordered"] = r.Reordered,
        };

        JsonObject Risk(RouteRisk r) => new()
        {
            ["expectedMinutes"] = Math.Round(r.ExpectedMinutes, 2),
            ["usualExpectedMinutes"] = Math.Round(r.UsualExpectedMinutes, 2),
            ["usualLength"] = Length(r.UsualLength),
            ["usualMinutes"] = Math.Round(r.UsualMinutes, 2),
            ["mostGrowth"] = r.Growth,
            ["likeliest"] = new JsonArray([.. r.Likeliest.Select(p => new JsonObject { ["element"] = p.Element, ["share"] = Math.Round(p.Share, 4), ["reason"] = p.Reason })]),
        };

        JsonObject Point(ProbePoint p) => new()
        {
            ["id"] = p.Id, ["fixture"] = p.Fixture, ["equipment"] = p.Equipment, ["room"] = p.Room, ["pass"] = p.Pass.Kebab(),
            ["spot"] = p.Spot.Kebab(), ["height"] = p.Height.Kebab(), ["at"] = Place(p.At), ["stand"] = Place(p.Stand), ["dwellSeconds"] = p.DwellSeconds,
        };

        JsonArray Place(PlanPoint p) => [Length(p.X), Length(p.Y)];

        // A tenth of a micrometre: far below the exactness asked of walks, free of conversion dust.
        double Length(double metres) => Math.Round(unit.FromMetres(metres), unit == LengthUnit.Millimetre ? 4 : 7);
    }
}
