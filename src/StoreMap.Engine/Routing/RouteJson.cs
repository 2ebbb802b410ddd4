using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>The machine-readable document of a route; lengths in the layout's units. Schema: docs/schemas/route.schema.json.</summary>
public static class RouteJson
{
    /// <summary>Writes a route.</summary>
    public static JsonObject Of(Route route, LengthUnit unit)
    {
        return new JsonObject
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
            ["anyOrderLowerBound"] = Length(route.AnyOrderBound),
            ["minutes"] = Math.Round(route.Minutes.Total, 2),
            ["minutesBy"] = new JsonObject
            {
                ["walking"] = Math.Round(route.Minutes.Walking, 2),
                ["probing"] = Math.Round(route.Minutes.Probing, 2),
                ["handling"] = Math.Round(route.Minutes.Handling, 2),
                ["fixed"] = Math.Round(route.Minutes.Fixed, 2),
            },
            ["effort"] = route.Effort,
            ["cutShort"] = route.CutShort,
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
