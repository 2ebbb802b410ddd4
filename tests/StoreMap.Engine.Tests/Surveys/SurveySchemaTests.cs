using System.Text;
using System.Text.Json;
using Json.Schema;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.Surveys;

/// <summary>docs/schemas/survey.schema.json, read by a JSON Schema library, and the pages of docs/formats.md agree with what the engine
/// reads and writes.</summary>
public class SurveySchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromFile(SourceTree.PathOf("docs", "schemas", "survey.schema.json"));

    // The store of the examples, in feet.
    private static readonly Plan Quince = new()
    {
        Id = "quince-street", Name = "Quince Street Grocery", TimeZone = "America/Chicago", Units = LengthUnit.Foot, Revision = 3,
        Outline = [TestStore.At(0, 0), TestStore.At(180, 0), TestStore.At(180, 120), TestStore.At(0, 120)],
        Fixtures = [Case("C3", 10), Case("C4", 60)],
        Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 1450)],
    };

    [Fact]
    public void Schema_WrittenSurvey_IsValidAndEveryFieldDescribed()
    {
        var survey = SurveyDocumentTests.WholeSurvey;
        var root = SurveyDocument.Of(survey, TestStore.Plan).Root;
        Assert.True(IsValid(root.ToJsonString()));
        var described = File.ReadAllText(SourceTree.PathOf("docs", "schemas", "survey.schema.json"));
        string[] foreign = ["weather", "case", "battery", "by", "photo", "step"];
        var fields = root.Concat(root["instruments"]!.AsArray().Concat(root["readings"]!.AsArray()).Concat(root["findings"]!.AsArray())
            .Concat(root["coverage"]!.AsArray()).Concat(root["zeroed"]!.AsArray()).SelectMany(n => n!.AsObject()));
        Assert.All(fields.Where(f => !foreign.Contains(f.Key)), f => Assert.Contains($"\"{f.Key}\":", described));
    }

    [Fact]
    public void Schema_SurveyOfALogPutInPlace_IsValid()
    {
        var rows = string.Concat(Enumerable.Range(0, 90).Select(t => $"2026-03-04 21:{t / 60:00}:{t % 60:00},{(t is > 30 and < 50 ? 20 : 0)}\n"));
        using var log = new MemoryStream(Encoding.UTF8.GetBytes("time,ppm\n" + rows));
        using var marks = new MemoryStream(Encoding.UTF8.GetBytes("time,fixture,at,event\n2026-03-04 21:00:05,C2,0,start\n2026-03-04 21:01:05,C2,24,end\n"));
        var aligned = LogAligner.Align(
            TestStore.Plan, [], LogCsv.Read(log, "log.csv", TestStore.Plan), MarksCsv.Read(marks, "marks.csv", TestStore.Plan, []).Marks);
        var root = SurveyDocument.Of(aligned.Survey, TestStore.Plan).Root;
        Assert.True(IsValid(root.ToJsonString()));
        Assert.Contains(root["readings"]!.AsArray(), r => r!["deviation"] is not null);
    }

    [Fact]
    public void Example_OfTheFormatsPage_ReadsAndIsValid()
    {
        var example = Example("## Survey", "```json");
        Assert.True(IsValid(example));
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(example));
        var document = SurveyDocument.Read(stream, "example.survey.json", Quince, []);
        Assert.Empty(document.Warnings);
        Assert.Equal((3, 1, 1), (document.Survey.Readings.Count, document.Survey.Zeroed.Count, document.Survey.Instruments[0].Responses.Count));
    }

    [Fact]
    public void Examples_OfReadings_Read()
    {
        ProbePoint[] points = [new ProbePoint { Id = "B-L1", Pass = ProbePass.Background, At = TestStore.At(20, 60), Stand = TestStore.At(20, 60) }];
        using var readings = new MemoryStream(Encoding.UTF8.GetBytes(Example("## Readings", "```csv")));
        var read = SurveyReader.Read(readings, "readings.csv", Quince, points);
        Assert.Empty(read.Warnings);
        Assert.Equal([ReadingBound.Below, ReadingBound.Exact, ReadingBound.AtLeast], read.Survey.Readings.Select(r => r.Bound));
        using var marks = new MemoryStream(Encoding.UTF8.GetBytes(Example("### A continuous log", "```csv")));
        Assert.Equal(5, MarksCsv.Read(marks, "marks.csv", Quince, points).Marks.Count);
        using var table = new MemoryStream(Encoding.UTF8.GetBytes(Example("`--responses` names", "```csv")));
        Assert.Equal(new GasResponse("R-134a", "R-448A", 1.25), Assert.Single(ResponsesCsv.Read(table, "t.csv")));
    }

    [Theory]
    [InlineData("""{ "format": "storemap-survey/2", "store": "test-store", "start": "2026-03-04T21:00:00-06:00" }""")]
    [InlineData("""{ "format": "storemap-survey/1", "start": "2026-03-04T21:00:00-06:00" }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "yesterday" }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "units": "yd" }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "instruments": [{ "kind": "hit" }] }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "instruments": [{ "id": "M", "responses": [{ "set": "R-22", "actual": "R-32" }] }] }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "readings": [{ "time": "2026-03-04T21:00:00-06:00", "ppm": "many", "x": 1, "y": 1 }] }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "readings": [{ "time": "2026-03-04T21:00:00-06:00", "ppm": 1 }] }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "readings": [{ "time": "2026-03-04T21:00:00-06:00", "ppm": 1, "x": 1, "y": 1, "air": "windy" }] }""")]
    [InlineData("""{ "format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", "coverage": [{ "complete": true }] }""")]
    public void Schema_WhatTheReaderRefuses_IsInvalid(string text)
    {
        Assert.False(IsValid(text));
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        Assert.Throws<RefusedInputException>(() => SurveyDocument.Read(stream, "v.survey.json", TestStore.Plan, []));
    }

    private static bool IsValid(string json)
    {
        using var document = JsonDocument.Parse(json);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static string Example(string after, string fence)
    {
        var page = File.ReadAllText(SourceTree.PathOf("docs", "formats.md"));
        var section = page[page.IndexOf(after, StringComparison.Ordinal)..];
        var start = section.IndexOf(fence, StringComparison.Ordinal) + fence.Length + 1;
        return section[start..section.IndexOf("```", start, StringComparison.Ordinal)];
    }

    private static Fixture Case(string id, double x) => new()
    {
        Id = id, Tag = id, Kind = FixtureKind.OpenCase, Outline = [TestStore.At(x, 20), TestStore.At(x + 24, 20), TestStore.At(x + 24, 24), TestStore.At(x, 24)],
        Front = new PlanLine([TestStore.At(x, 20), TestStore.At(x + 24, 20)]), Sections = [new Section(1, 0, 24 * TestStore.Ft, 1, null)],
    };
}
