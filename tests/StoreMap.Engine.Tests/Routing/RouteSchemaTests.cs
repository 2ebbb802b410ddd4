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
