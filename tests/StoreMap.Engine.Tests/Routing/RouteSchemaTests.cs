using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Rules;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>docs/schemas/route.schema.json, read by a JSON Schema library, agrees with the documents of real routes.</summary>
public class RouteSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromFile(SourceTree.PathOf("docs", "schemas", "route.schema.json"));
    private static readonly Plan Plan = LayoutDocument.Read(File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"))).Plan;

    [Fact]
    public void Schema_RouteOfTheDemoStore_IsValidAndEveryFieldDescribed()
    {
        var paths = new WalkingPaths(FreeFloor.Build(Plan, 0.3));
        var route = RoutePlanner.Plan(Plan, paths, ProbePlanner.Draft(Plan, new Protocol()), new RouteRequest { Budget = new TourBudget { Effort = 1000 } });
        var json = RouteJson.Of(route, Plan.Units);
        Assert.True(IsValid(json));
        var described = File.ReadAllText(SourceTree.PathOf("docs", "schemas", "route.schema.json"));
        Assert.All(json.Concat(json["points"]![0]!.AsObject()).Concat(json["legs"]![0]!.AsObject()), f => Assert.Contains($"\"{f.Key}\":", described));
    }

    [Fact]
    public void Schema_LikeliestFirstKeptAndReplanned_AreValidAndEveryFieldDescribed()
    {
        var weights = new RiskWeights { Expected = DemoRoute.Draft.Points.ToDictionary(p => p.Id, _ => 1.0) };
        var few = DemoRoute.Request with { Budget = new TourBudget { Effort = 0 } };
        Route[] routes =
        [
            RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, few with { Risk = weights }),
            RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, few with { Keep = DemoRoute.Usual.Order }),
            RouteReplanner.Replan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, EarlierRoute.Of(DemoRoute.Usual), new ReplanRequest { At = new(5, 5), Unreachable = ["W1"] }),
        ];
        var described = File.ReadAllText(SourceTree.PathOf("docs", "schemas", "route.schema.json"));
        foreach (var json in routes.Select(r => RouteJson.Of(r, DemoRoute.Plan.Units)))
        {
            Assert.True(IsValid(json));
            foreach (var part in new[] { json, json["risk"], json["keep"], json["replanned"], json["gasChanges"]![0], json["risk"]?["likeliest"]![0] }.OfType<JsonObject>())
                Assert.All(part, f => Assert.Contains($"\"{f.Key}\":", described));
        }
    }

    [Fact]
    public void Schema_RouteInTime_IsValidAndEveryFieldDescribed()
    {
        var plan = DemoRoute.Plan with
        {
            Areas = [new("F1", "Sales floor", DemoRoute.Plan.Outline, [(new(21, 0), new(7, 0))])],
            Rooms = [.. DemoRoute.Plan.Rooms.Select(r => r with { Entry = [(new(6, 0), new(14, 0))] })],
        };
        var json = RouteJson.Of(RoutePlanner.Plan(plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Begin = new(5, 0) }), plan.Units);
        Assert.True(IsValid(json));
        var clock = json["clock"]!.AsObject();
        var described = File.ReadAllText(SourceTree.PathOf("docs", "schemas", "route.schema.json"));
        foreach (var part in new[] { clock, clock["hours"]![0]!.AsObject(), clock["change"]!.AsObject() }) Assert.All(part, f => Assert.Contains($"\"{f.Key}\":", described));
        Assert.Contains(clock["hours"]!.AsArray(), v => v!["place"]!.GetValue<string>() == "F1");
        Assert.Contains(clock["hours"]!.AsArray(), v => v!["place"]!.GetValue<string>() == "R1");
    }

    [Theory]
    [InlineData("order")]
    [InlineData("legs")]
    [InlineData("lowerBound")]
    public void Schema_WithoutARequiredField_IsInvalid(string field)
    {
        var paths = new WalkingPaths(FreeFloor.Build(Plan, 0.3));
        ProbePoint[] points = [.. ProbePlanner.Draft(Plan, new Protocol()).Points.Take(5)];
        var json = RouteJson.Of(RoutePlanner.Over(Plan, paths, points, new RouteRequest { Closed = true }), Plan.Units);
        Assert.True(IsValid(json));
        json.Remove(field);
        Assert.False(IsValid(json));
    }

    private static bool IsValid(JsonObject json)
    {
        using var document = JsonDocument.Parse(json.ToJsonString());
        return Schema.Evaluate(document.RootElement).IsValid;
    }
}
