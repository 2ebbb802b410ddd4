using System.Globalization;
using System.Text.Json;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Malformed logs of Cases/hostile; the expected values come with them.</summary>
public class HostileCsvTests
{
    private static readonly SurveyReadOptions Mapped = new()
    {
        Columns = SurveyReadOptions.ParseColumns("time=timestamp,x=x_m,y=y_m"), DetectionPpm = 0.1, ResolutionPpm = 0.1,
    };

    // A bare floor in metres, so that x_m and y_m are layout units.
    private static readonly Plan Floor = new()
    {
        Id = "floor", Name = "Floor", TimeZone = "UTC", Outline = [new(0, 0), new(10, 0), new(10, 10), new(0, 10)],
    };

    private static SurveyReadResult Read(string name)
    {
        using var stream = File.OpenRead(CaseFiles.PathOf("hostile/" + name));
        return SurveyReader.Read(stream, name, Floor, [], Mapped);
    }

    [Fact]
    public void Read_BomCrlfSemicolonDecimalComma_GivesTheExpectedValues()
    {
        var readings = Read("08_bom_crlf_semicolon_decimalcomma.csv").Survey.Readings;
        using var expected = JsonDocument.Parse(CaseFiles.Text("hostile/expected.json"));
        var rows = expected.RootElement.GetProperty("expected_csv_values").EnumerateArray().ToArray();
        Assert.Equal(rows.Length, readings.Count);
        foreach (var (row, reading) in rows.Zip(readings))
        {
            Assert.Equal(row.GetProperty("timestamp").GetString(), reading.Time.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture));
            Assert.Equal(row.GetProperty("x_m").GetDouble(), reading.Place.At.X);
            Assert.Equal(row.GetProperty("y_m").GetDouble(), reading.Place.At.Y);
            Assert.Equal(row.GetProperty("ppm").GetDouble(), reading.Ppm);
            Assert.Equal(row.GetProperty("note").GetString(), reading.Note ?? "");
        }
    }

    [Fact]
    public void Read_MissingColumn_NamesItAndTheRowsThatDoNotFit()
    {
        var problems = Assert.Throws<RefusedInputException>(() => Read("09_missing_columns.csv")).Problems;
        Assert.Equal(
            ["row 1: y_m: column-missing", "row 6: : csv-row-length", "row 9: : csv-row-length"],
            problems.Select(p => $"{p.Element}: {p.Field}: {p.Rule}"));
    }

    [Fact]
    public void Read_DuplicateTimestamps_KeepsFileOrderAndReportsThree()
    {
        var result = Read("10_duplicate_timestamps.csv");
        Assert.Equal([15.5, 9.9, 7.6, 6.2, 14.3, 7.4, 5.8, 9.8, 9.7, 4.3, 8.3, 14.0], result.Survey.Readings.Select(r => r.Ppm));
        var warning = Assert.Single(result.Warnings);
        Assert.Equal("reading-duplicate-time", warning.Rule);
        Assert.StartsWith("3 readings", warning.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_OutOfOrder_SortsWithAWarning()
    {
        var result = Read("11_out_of_order.csv");
        Assert.Equal([15.5, 9.9, 7.6, 6.2, 14.3, 7.4, 5.8, 9.8, 9.7, 4.3, 8.3, 14.0], result.Survey.Readings.Select(r => r.Ppm));
        var warning = Assert.Single(result.Warnings);
        Assert.Equal(("row 5", "reading-order"), (warning.Element, warning.Rule));
    }
}
