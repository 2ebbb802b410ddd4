using System.Text.Json;

namespace StoreMap.Tests;

/// <summary><c>check</c> on every broken file of the engine's cases and on the hostile ones: exact errors, exit 1, no stack trace, nothing written.</summary>
public sealed class CheckFilesTests : IDisposable
{
    private readonly Runner run = new();

    public static TheoryData<string> BrokenLayouts =>
        [.. Directory.GetFiles(Cases("layouts", "broken"), "*.layout.json").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    public void Dispose() => run.Dispose();

    [Theory]
    [MemberData(nameof(BrokenLayouts))]
    public void BrokenLayout_IsRefusedWithEveryErrorAndItsPlace(string name)
    {
        Assert.Equal(1, run.Run("check", Cases("layouts", "broken", name)));
        Assert.Contains("error: ", run.Error);
        Assert.DoesNotContain("   at ", run.Error);
        Assert.DoesNotContain("Exception", run.Error);
        Assert.Empty(run.Files());
        Assert.Equal(1, run.Run("check", Cases("layouts", "broken", name), "--json"));
        using var json = JsonDocument.Parse(run.Out);
        Assert.All(json.RootElement.GetProperty("errors").EnumerateArray(), e => Assert.False(string.IsNullOrEmpty(e.GetProperty("rule").GetString())));
    }

    [Fact]
    public void ThereAreTwentyBrokenLayoutsOrMore() => Assert.True(BrokenLayouts.Count >= 20);

    [Fact]
    public void LogWithoutItsLayout_IsRefusedWithWhatToDo()
    {
        Assert.Equal(1, run.Run("check", Runner.Demo("2026-06-09.readings.csv")));
        Assert.Contains("Name the layout too", run.Error);
    }

    /// <summary>What Cases/hostile/expected.json says of each: valid; refused by name; stable order with 3 duplicates; sorted with a message.</summary>
    [Theory]
    [InlineData("08_bom_crlf_semicolon_decimalcomma.csv", 0)]
    [InlineData("09_missing_columns.csv", 1, "row 1: y_m: column-missing", "row 6: : csv-row-length", "row 9: : csv-row-length")]
    [InlineData("10_duplicate_timestamps.csv", 0, ": time: reading-duplicate-time")]
    [InlineData("11_out_of_order.csv", 0, "row 5: time: reading-order")]
    public void HostileReadings_HaveExactlyTheirExpectedOutcome(string name, int code, params string[] problems)
    {
        string[] args = ["check", Floor(), Cases("hostile", name), "--columns", "time=timestamp,x=x_m,y=y_m", "--detection-limit", "0.1"];
        Assert.Equal(code, run.Run([.. args, "--json"]));
        using var json = JsonDocument.Parse(run.Out);
        var list = code == 0 ? json.RootElement.GetProperty("warnings") : json.RootElement.GetProperty("errors");
        var own = list.EnumerateArray().Where(p => p.GetProperty("file").GetString() == Cases("hostile", name)).ToList();
        Assert.Equal(problems, own.Select(p => $"{p.GetProperty("element").GetString()}: {p.GetProperty("field").GetString()}: {p.GetProperty("rule").GetString()}"));
        if (name.StartsWith("10", StringComparison.Ordinal)) Assert.StartsWith("3 readings", own[0].GetProperty("message").GetString(), StringComparison.Ordinal);
        Assert.Equal(code, run.Run(args));
        Assert.DoesNotContain("Exception", run.Error);
        Assert.Equal(["floor.layout.json"], run.Files());
    }

    [Theory]
    [InlineData("01_truncated.dxf")]
    [InlineData("12_script_external_entity.svg")]
    public void Drawing_IsSentToImport(string name)
    {
        Assert.Equal(1, run.Run("check", Cases("hostile", name)));
        Assert.Contains("storemap import", run.Error);
    }

    [Fact]
    public void LogMarksAndResponseTable_AreKnownByTheirHeaders()
    {
        var layout = Runner.Demo("tern-hollow.layout.json");
        Assert.Equal(0, run.Run("check", layout, Runner.Demo("2026-08-04.log.csv"), Runner.Demo("2026-08-04.marks.csv")));
        var marks = run.Write("marks.csv", "time,fixture,at,event\n2026-09-01 06:00,C1,0,start\n2026-09-01 06:01,C99,3,end\n");
        var log = run.Write("log.csv", "time,ppm\n2026-09-01 06:00,many\nnoon,3\n");
        var table = run.Write("gases.csv", "set,actual,factor\nR-134a,R-448A,0\n");
        foreach (var rule in new[] { "reading-fixture", "reading-ppm", "reading-time", "response-factor" }) Assert.Contains(rule, Rules(layout, marks, log, table));
    }

    [Fact]
    public void BrokenReadings_NameEveryErrorOnceEachInOrder()
    {
        var readings = run.Write("r.csv", "time,ppm,fixture,at\n2026-06-09 05:00,3,C1,1\nlater,3,C1,1\n2026-06-09 05:01,-,C1,1\n2026-06-09 05:02,3,C999,1\n2026-06-09 05:03,3,C1,9999\n2026-06-09 05:04,3,C1\n2026-06-09 05:05,3,C1,\n");
        Assert.Equal(
            ["row 3: reading-time", "row 4: reading-ppm", "row 5: reading-fixture", "row 6: reading-at", "row 7: csv-row-length", "row 8: reading-at"],
            Problems(Runner.Demo("tern-hollow.layout.json"), readings).Select(p => $"{p.GetProperty("element").GetString()}: {p.GetProperty("rule").GetString()}"));
    }

    [Fact]
    public void BinaryRubbish_IsRefused()
    {
        var file = run.PathOf("rubbish.layout.json");
        File.WriteAllBytes(file, [.. Enumerable.Range(0, 4096).Select(i => (byte)(i * 37))]);
        Assert.Equal(1, run.Run("check", file));
        Assert.DoesNotContain("Exception", run.Error);
    }

    [Fact]
    public void DemoFiles_HaveNoError() => Assert.Equal(0, run.Run(
        "check", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-06-09.readings.csv"), Runner.Demo("2026-07-07.readings.csv"), Runner.Demo("tern-hollow.service.json")));

    // A bare floor in metres, so that x_m and y_m are layout units.
    private string Floor() => run.Write("floor.layout.json",
        """{ "format": "storemap-layout/1", "id": "floor", "name": "Floor", "timeZone": "UTC", "units": "m", "outline": [[0,0],[10,0],[10,10],[0,10]] }""");

    private List<string?> Rules(params string[] files) => [.. Problems(files).Select(p => p.GetProperty("rule").GetString())];

    private List<JsonElement> Problems(params string[] files)
    {
        run.Run([.. files.Prepend("check"), "--json"]);
        using var json = JsonDocument.Parse(run.Out);
        return [.. json.RootElement.GetProperty("errors").EnumerateArray().Select(e => e.Clone())];
    }

    private static string Cases(params string[] parts) => Path.Combine([Runner.Root, "tests", "StoreMap.Engine.Tests", "Cases", .. parts]);
}
