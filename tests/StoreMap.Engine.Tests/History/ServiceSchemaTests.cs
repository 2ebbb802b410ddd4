using System.Text.Json;
using Json.Schema;
using StoreMap.History;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.History;

/// <summary>docs/schemas/service.schema.json, read by a JSON Schema library, agrees with what the engine reads and writes.</summary>
public class ServiceSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromFile(SourceTree.PathOf("docs", "schemas", "service.schema.json"));

    [Fact]
    public void Schema_WrittenRecord_IsValid()
    {
        var file = ServiceRecordFile.New("test-shop", WeightUnit.Pound, LengthUnit.Foot)
            .Append(new ServiceEntry
            {
                Finding = "F1", Date = TestShop.Day(6, 12), Fixture = "C1", Section = 1, Along = 2, Spot = "drain", Component = "valve", Fault = "loose",
                Pinpointed = "bubbles", Repair = "tightened", Status = FindingStatus.FollowedUp, WorkOrder = "W1", Technician = "T", Certificate = "C",
                Note = "N", Tests = [new VerificationTest(TestShop.Day(6, 12), "initial", "bubble", true), new VerificationTest(TestShop.Day(6, 20), "follow-up", "electronic", true)],
            })
            .Append(new RefrigerantMovement(TestShop.Day(6, 12), "A", "R-448A", 12, 3, "F1"));
        Assert.True(IsValid(file.Root.ToJsonString()));
        // Every field written is described.
        var described = File.ReadAllText(SourceTree.PathOf("docs", "schemas", "service.schema.json"));
        foreach (var list in (string[])["entries", "movements"])
            Assert.All(file.Root[list]![0]!.AsObject(), field => Assert.Contains($"\"{field.Key}\":", described));
    }

    [Fact]
    public void Example_OfTheFormatsPage_ReadsAndIsValid()
    {
        var page = File.ReadAllText(SourceTree.PathOf("docs", "formats.md"));
        var section = page[page.IndexOf("## Service record", StringComparison.Ordinal)..];
        var start = section.IndexOf("```json", StringComparison.Ordinal) + 7;
        var example = section[start..section.IndexOf("```", start, StringComparison.Ordinal)];
        Assert.True(IsValid(example));
        var file = ServiceRecordFile.Parse(example);
        Assert.Empty(file.Warnings);
        Assert.Equal("repaired 2026-06-12, verified", ServiceFinding.Of(file.Record).Single().InWords());
    }

    [Theory]
    [InlineData("""{ "format": "storemap-service/2", "store": "a" }""")]
    [InlineData("""{ "format": "storemap-service/1" }""")]
    [InlineData("""{ "format": "storemap-service/1", "store": "a", "entries": [{ "finding": "F", "date": "2026-06-12", "status": "fixed", "fixture": "C" }] }""")]
    [InlineData("""{ "format": "storemap-service/1", "store": "a", "movements": [{ "date": "2026-06-12", "system": "A", "refrigerant": "R-22", "added": 1 }] }""")]
    [InlineData("""{ "format": "storemap-service/1", "store": "a", "weightUnit": "kg", "movements": [{ "date": "2026-06-12", "system": "A", "refrigerant": "R-22" }] }""")]
    public void Schema_WhatTheReaderRefuses_IsInvalid(string text)
    {
        Assert.False(IsValid(text));
        Assert.Throws<RefusedInputException>(() => ServiceRecordFile.Parse(text));
    }

    [Fact]
    public void Schema_EmptyRecord_IsValid()
    {
        const string Text = """{ "format": "storemap-service/1", "store": "a", "movements": [] }""";
        Assert.True(IsValid(Text));
        Assert.Empty(ServiceRecordFile.Parse(Text).Record.Entries);
    }

    private static bool IsValid(string text) => Schema.Evaluate(JsonDocument.Parse(text).RootElement).IsValid;
}
