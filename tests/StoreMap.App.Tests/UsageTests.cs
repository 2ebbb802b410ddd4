using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>Exit codes and where words go: results on standard output, messages on standard error.</summary>
public sealed class UsageTests : IDisposable
{
    private readonly Runner run = new();

    public void Dispose() => run.Dispose();

    [Fact]
    public void UnknownVerb_IsWrongUsageWithAHint()
    {
        Assert.Equal(2, run.Run("fly"));
        Assert.Contains("storemap --help", run.Error);
        Assert.Empty(run.Out);
    }

    [Fact]
    public void MissingArgument_IsWrongUsage()
    {
        Assert.Equal(2, run.Run("route"));
        Assert.Contains("storemap route --help", run.Error);
    }

    [Theory]
    [InlineData("demo")]
    [InlineData("check")]
    [InlineData("import")]
    [InlineData("route")]
    [InlineData("log")]
    [InlineData("map")]
    [InlineData("locate")]
    [InlineData("compare")]
    [InlineData("report")]
    [InlineData("interpolate")]
    [InlineData("contour")]
    [InlineData("calibrate")]
    [InlineData("trend")]
    public void Help_OfEachVerb_TeachesIt(string verb)
    {
        Assert.Equal(0, run.Run(verb, "--help"));
        Assert.Contains("Usage:", run.Out);
        Assert.True(run.Out.Length > 300);
    }

    [Theory]
    [InlineData("--clearance", "-1")]
    [InlineData("--clearance", "wide")]
    [InlineData("--effort", "-5")]
    [InlineData("--start", "C1-F01")]
    public void OptionOutOfItsRange_IsWrongUsageNamingIt(string option, string value)
    {
        Assert.Equal(2, run.Run("route", Runner.Demo("tern-hollow.layout.json"), option, value));
        Assert.Contains(option, run.Error);
    }

    [Fact]
    public void MisspeltOptionAfterAListOfFiles_IsWrongUsageAndNoFile()
    {
        Assert.Equal(2, run.Run("map", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-06-09.readings.csv"), "--ouput", "x"));
        Assert.Contains("--ouput is no option", run.Error);
    }

    [Fact]
    public void SameReadingsTwice_AreCountedOnceWithAWarning()
    {
        var twice = run.PathOf("copy.csv");
        File.Copy(Runner.Demo("2026-06-09.readings.csv"), twice);
        Assert.Equal(0, run.Run("map", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-06-09.readings.csv"), twice));
        Assert.Contains("counted once", run.Error);
        Assert.Contains("291 readings", run.Out);
    }

    [Fact]
    public void MissingFile_IsRefusedByName()
    {
        Assert.Equal(1, run.Run("check", "nowhere.layout.json"));
        Assert.Contains("nowhere.layout.json", run.Error);
        Assert.DoesNotContain("Exception", run.Error);
    }

    [Fact]
    public void RefusedInput_AsJson_IsOneDocumentOfErrors()
    {
        var file = run.Write("bad.layout.json", """{ "format": "storemap-layout/1", "id": "BAD ID", "name": "x", "units": "yd", "outline": [[0,0],[1,1]] }""");
        Assert.Equal(1, run.Run("check", file, "--json"));
        using var json = JsonDocument.Parse(run.Out);
        var errors = json.RootElement.GetProperty("errors").EnumerateArray().ToList();
        Assert.True(errors.Count >= 3);
        Assert.All(errors, e => Assert.False(string.IsNullOrEmpty(e.GetProperty("message").GetString())));
        Assert.Contains(errors, e => e.GetProperty("field").GetString() == "units");
    }

    [Fact]
    public void Cancelled_EndsWith130AndLeavesNothing()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = new App.Shell.Host(TextReader.Null, output, error, false).Run(
            ["route", Runner.Demo("tern-hollow.layout.json"), "--out", run.PathOf("route")], new CancellationToken(canceled: true));
        Assert.Equal(130, code);
        Assert.Empty(run.Files());
    }

    [Fact]
    public void RefusedSurvey_WritesNothing()
    {
        var readings = run.Write("bad.csv", "time,ppm,point\nyesterday,3,C1-F01\n2026-06-09T06:00:00,x,C1-F02\n2026-06-09T06:01:00,3,NO-SUCH\n");
        Assert.Equal(1, run.Run("map", Runner.Demo("tern-hollow.layout.json"), readings, "--out", run.PathOf("map")));
        Assert.Contains("row 2", run.Error);
        Assert.Contains("row 3", run.Error);
        Assert.Contains("row 4", run.Error);
        Assert.Equal(["bad.csv"], run.Files());
    }
}
