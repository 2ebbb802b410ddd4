using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Tests.History;

/// <summary>The format of docs/formats.md. Weights: 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959).</summary>
public class ServiceRecordFileTests
{
    private const string Sample = """
        {
          "format": "storemap-service/1",
          "store": "test-shop",
          "units": "ft", "weightUnit": "lb",
          "entries": [
            { "finding": "F1", "date": "2026-05-10", "fixture": "27a", "at": 10.50, "spot": "line drop", "status": "open", "colour": "red" },
            { "finding": "F1", "date": "2026-06-12", "repair": "flare remade", "status": "verified", "technician": "J. Doe", "certificate": "608-1",
              "tests": [{ "date": "2026-06-12", "kind": "initial", "method": "bubble", "passed": true, "minutes": 20 }] },
            { "finding": "F2", "date": "2026-06-12", "equipment": "Q1", "component": "sight glass", "status": "isolated" }
          ],
          "movements": [
            { "date": "2026-06-12", "system": "A", "refrigerant": "r-448a", "added": 60, "finding": "F1" },
            { "date": "2026-06-13", "system": "B", "refrigerant": "R-404A", "recovered": 10.25 }
          ],
          "owner": { "any": [1.0, 2.50] }
        }
        """;

    [Fact]
    public void Read_Sample_GivesMetresKilogramsAndIds()
    {
        var record = Parse(Sample).Record;
        Assert.Equal("C1", record.Entries[0].Fixture);
        Assert.Equal(10.5 * 0.3048, record.Entries[0].Along!.Value, 12);
        Assert.Equal(FindingStatus.Verified, record.Entries[1].Status);
        Assert.Equal(new VerificationTest(new DateOnly(2026, 6, 12), "initial", "bubble", true), record.Entries[1].Tests[0]);
        Assert.Equal(60 * 0.45359237, record.Movements[0].AddedKilograms, 12);
        Assert.Equal("R-448A", record.Movements[0].Refrigerant);
        Assert.Equal(10.25 * 0.45359237, record.Movements[1].RecoveredKilograms, 12);
        Assert.Empty(Parse(Sample).Warnings);
    }

    [Fact]
    public void Write_Sample_KeepsUnknownFieldsAndNumbersAsWritten()
    {
        var text = Text(Parse(Sample));
        Assert.Contains("\"at\": 10.50", text);
        Assert.Contains("\"any\": [1.0, 2.50]", text);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Sample), JsonNode.Parse(text)));
        Assert.Equal(text, Text(Parse(text)));
    }

    [Fact]
    public void Append_EntryAndMovement_ReadBackTheSame() =>
        (from along in Gen.Double[0, 6]
         from kilograms in Gen.Int[0, 5000].Select(grams => grams / 1000.0)
         from pounds in Gen.Bool
         from status in Gen.Int[0, 2].Select(i => (FindingStatus)i)
         select (along, kilograms, pounds, status)).Sample(d =>
        {
            var entry = new ServiceEntry
            {
                Finding = "F9", Date = new DateOnly(2026, 7, 1), Fixture = "C1", Section = 2, Along = d.along, Status = d.status, Fault = "rubbed „durch“",
            };
            var movement = new RefrigerantMovement(entry.Date, "A", "R-448A", d.kilograms, 0.5, "F9");
            var file = ServiceRecordFile.New("test-shop", d.pounds ? WeightUnit.Pound : WeightUnit.Kilogram, LengthUnit.Foot)
                .Append(entry, TestShop.Shop).Append(movement, TestShop.Shop);
            var read = Parse(Text(file)).Record;
            Assert.Equal(entry with { Tests = read.Entries[0].Tests, Along = read.Entries[0].Along }, read.Entries[0]);
            Assert.Equal(d.along, read.Entries[0].Along!.Value, 1e-9);
            Assert.Equal(d.kilograms, read.Movements[0].AddedKilograms, 3e-5);
            Assert.Equal("F9", read.Movements[0].Finding);
        });

    [Fact]
    public void Append_LeavesTheEarlierStateAlone()
    {
        var before = Parse(Sample);
        var text = Text(before);
        var after = before.Append(new RefrigerantMovement(new DateOnly(2026, 7, 1), "A", "R-448A", 1, 0));
        Assert.Equal(text, Text(before));
        Assert.Equal(3, after.Record.Movements.Count);
        Assert.Empty(after.CheckContinues(before));
    }

    [Fact]
    public void CheckContinues_ChangedOrMissingEntry_IsNamed()
    {
        var changed = Parse(Sample.Replace("flare remade", "flare tightened", StringComparison.Ordinal));
        var problem = Assert.Single(changed.CheckContinues(Parse(Sample), "a.service.json"));
        Assert.Equal(("entries[1]", "append-only", "a.service.json"), (problem.Element, problem.Rule, problem.File));
        var empty = ServiceRecordFile.New("test-shop", WeightUnit.Pound, LengthUnit.Foot);
        Assert.Equal(5, empty.CheckContinues(Parse(Sample)).Count);
    }

    [Theory]
    [InlineData("\"2026-05-10\", \"fixture\": \"27a\"", "\"2026-05-10\", \"fixture\": \"Z9\"", "entries[0]", "fixture", "reference")]
    [InlineData("\"2026-05-10\"", "\"10.05.2026\"", "entries[0]", "date", "date")]
    [InlineData("\"2026-05-10\"", "\"2026-02-30\"", "entries[0]", "date", "date")]
    [InlineData("\"date\": \"2026-05-10\", ", "", "entries[0]", "date", "required")]
    [InlineData("\"at\": 10.50", "\"at\": 30", "entries[0]", "at", "number-range")]
    [InlineData("\"at\": 10.50", "\"at\": \"far\"", "entries[0]", "at", "type")]
    [InlineData("\"at\": 10.50", "\"section\": 3", "entries[0]", "section", "section")]
    [InlineData("\"open\"", "\"fixed\"", "entries[0]", "status", "word")]
    [InlineData("\"equipment\": \"Q1\"", "\"equipment\": \"Q9\"", "entries[2]", "equipment", "reference")]
    [InlineData("\"equipment\": \"Q1\", ", "", "entries[2]", "fixture", "required")]
    [InlineData("\"equipment\": \"Q1\"", "\"equipment\": \"Q1\", \"fixture\": \"C1\"", "entries[2]", "equipment", "one-place")]
    [InlineData("\"repair\"", "\"fixture\": \"C2\", \"repair\"", "entries[1]", "fixture", "finding-moved")]
    [InlineData("\"initial\"", "\"first\"", "entries[1]", "tests[0].kind", "word")]
    [InlineData("\"passed\": true, ", "", "entries[1]", "tests[0].passed", "required")]
    [InlineData("\"added\": 60", "\"added\": -60", "movements[0]", "added", "number-range")]
    [InlineData("\"added\": 60", "\"added\": 1e300", "movements[0]", "added", "number-range")]
    [InlineData("\"added\": 60, ", "", "movements[0]", "added", "required")]
    [InlineData("\"system\": \"A\"", "\"system\": \"D\"", "movements[0]", "system", "reference")]
    [InlineData("\"weightUnit\": \"lb\"", "\"weightUnit\": \"stone\"", null, "weightUnit", "word")]
    [InlineData(", \"weightUnit\": \"lb\"", "", null, "weightUnit", "required")]
    [InlineData("\"units\": \"ft\", ", "", "entries[0]", "at", "required")]
    [InlineData("\"ft\"", "\"yd\"", null, "units", "word")]
    [InlineData("\"test-shop\"", "\"other-shop\"", null, "store", "store")]
    [InlineData("storemap-service/1", "storemap-service/2", null, "format", "format")]
    [InlineData("storemap-service/1", "storemap-layout/1", null, "format", "format")]
    [InlineData("\"store\": \"test-shop\",", "", null, "store", "required")]
    [InlineData("\"entries\": [", "\"entries\": [ 7,", null, "entries[0]", "type")]
    [InlineData("\"colour\": \"red\" },", "\"colour\": \"red\"", null, null, "json")]
    public void Read_OneFault_IsNamedByElementFieldAndRule(string good, string bad, string? element, string? field, string rule)
    {
        Assert.Contains(good, Sample);
        var index = Sample.IndexOf(good, StringComparison.Ordinal);
        var text = string.Concat(Sample.AsSpan(0, index), bad, Sample.AsSpan(index + good.Length));
        var refused = Assert.Throws<RefusedInputException>(() => Parse(text));
        var errors = refused.Problems.Where(p => p.Severity == Severity.Error).ToList();
        var error = Assert.Single(errors);
        Assert.Equal((element, rule), (error.Element, error.Rule));
        if (field is not null) Assert.Equal(field, error.Field);
    }

    [Fact]
    public void Read_ManyFaults_AreReportedAtOnce()
    {
        var text = Sample.Replace("\"open\"", "\"?\"", StringComparison.Ordinal).Replace("60", "-60", StringComparison.Ordinal)
            .Replace("Q1", "Q9", StringComparison.Ordinal).Replace("2026-06-13", "someday", StringComparison.Ordinal);
        var problems = ServiceRecordFile.Check(new MemoryStream(Encoding.UTF8.GetBytes(text)), "s.service.json", TestShop.Shop);
        Assert.Equal(4, problems.Count(p => p.Severity == Severity.Error));
        Assert.All(problems, p => Assert.Equal("s.service.json", p.File));
    }

    [Theory]
    [InlineData("{ \"date\": \"2026-06-12\", \"kind\": \"initial\", \"method\": \"bubble\", \"passed\": true, \"minutes\": 20 }", "", "verified-without-test")]
    [InlineData("\"finding\": \"F1\" }", "\"finding\": \"F8\" }", "finding")]
    [InlineData("r-448a", "R-404A", "refrigerant-differs")]
    [InlineData("r-448a", "R-999X", "refrigerant-known")]
    [InlineData("2026-05-10", "2026-08-10", "date-order")]
    [InlineData("\"isolated\"", "\"reopened\"", "first-entry")]
    public void Read_OddRecord_WarnsAndGoesOn(string good, string bad, string rule)
    {
        Assert.Contains(good, Sample);
        var file = Parse(Sample.Replace(good, bad, StringComparison.Ordinal));
        Assert.Contains(file.Warnings, w => w.Rule == rule && w.Severity == Severity.Warning);
    }

    [Fact]
    public void Read_WithoutAPlan_KeepsNamesUnchecked() =>
        Assert.Equal("27a", ServiceRecordFile.Parse(Sample).Record.Entries[0].Fixture);

    private static ServiceRecordFile Parse(string text) =>
        ServiceRecordFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), null, TestShop.Shop);

    private static string Text(ServiceRecordFile file)
    {
        using var stream = new MemoryStream();
        file.Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
