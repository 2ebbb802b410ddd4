using System.Globalization;
using System.Text.Json;

namespace StoreMap.Tests;

/// <summary><c>log</c> end to end on the demo store's layout with logs of known truth: gas of 30 ppm between 10 and 12 ft of C1's front,
/// walked at 1 ft/s, seen through a sampling line of 7 s and a first-order sensor of T90 5 s.</summary>
public sealed class LogTests : IDisposable
{
    private const double DelaySeconds = 7;
    private static readonly DateTime Start = new(2026, 9, 1, 6, 0, 0);
    private readonly Runner run = new();

    public void Dispose() => run.Dispose();

    [Fact]
    public void LineUpWalkedBothWays_FindsTheLagAndSendsBackToTheGas()
    {
        using var json = Json(0, "log", Layout, Log(), "--marks", Marks(0), "--out", run.PathOf("v.survey.json"), "--json");
        var root = json.RootElement;
        Assert.Equal(DelaySeconds, root.GetProperty("lag").GetProperty("seconds").GetDouble(), 0.6);
        var places = root.GetProperty("goBack").EnumerateArray().ToList();
        Assert.True(places.Count >= 2);
        Assert.All(places, p =>
        {
            Assert.Equal("C1", p.GetProperty("fixture").GetString());
            Assert.InRange(p.GetProperty("along").GetDouble(), 9, 13);
            Assert.True(p.GetProperty("back").GetDouble() > 2);
            Assert.StartsWith("C1-", p.GetProperty("nearest")[0].GetString(), StringComparison.Ordinal);
        });
        Assert.Contains("lag", run.Error);
        Assert.Equal(0, run.Run("check", Layout, run.PathOf("v.survey.json")));
        Assert.Equal(0, run.Run("map", Layout, run.PathOf("v.survey.json"), "--grid", run.PathOf("g.csv")));
    }

    [Fact]
    public void KnownDelay_IsKeptAndTheDifferenceTold()
    {
        Assert.Equal(0, run.Run("log", Layout, Log(), "--marks", Marks(0), "--delay", "3", "--out", run.PathOf("v.survey.json")));
        Assert.Contains("the delay given is 3 s and was used", run.Error);
    }

    [Fact]
    public void ClocksApart_AreSetRightByOptionOrFound()
    {
        using var found = Json(0, "log", Layout, Log(), "--marks", Marks(-30), "--delay", "7", "--find-clock", "--out", run.PathOf("a.survey.json"), "--json");
        Assert.Equal(30, found.RootElement.GetProperty("clockOffsetSeconds").GetDouble(), 0.6);
        using var given = Json(0, "log", Layout, Log(), "--marks", Marks(-30), "--delay", "7", "--clock", "30", "--out", run.PathOf("b.survey.json"), "--json");
        foreach (var json in new[] { found, given })
        {
            Assert.All(json.RootElement.GetProperty("goBack").EnumerateArray(), p => Assert.InRange(p.GetProperty("along").GetDouble(), 9, 13));
        }

        Assert.Equal(2, run.Run("log", Layout, Log(), "--find-clock", "--out", run.PathOf("c.survey.json")));
        Assert.Contains("--marks", run.Error);
    }

    [Fact]
    public void ResponseTable_IsKeptInTheSurvey()
    {
        var readings = run.Write("r.csv", "time,ppm,fixture,at,gas\n2026-09-01 06:00,0,C2,2,R-134a\n2026-09-01 06:01,10,C2,6,R-134a\n2026-09-01 06:02,0,C3,6,R-134a\n");
        using var alone = Json(0, "log", Layout, readings, "--out", run.PathOf("a.survey.json"), "--json");
        Assert.Equal(3, alone.RootElement.GetProperty("hitOnly").GetInt32());
        var gas = run.Write("t.csv", "set,actual,factor\nR-134a,R-448A,2\nR-134a,R-404A,2\n");
        using var table = Json(0, "log", Layout, readings, "--responses", gas, "--out", run.PathOf("b.survey.json"), "--json");
        Assert.Equal(0, table.RootElement.GetProperty("hitOnly").GetInt32());
        using var map = Json(0, "map", Layout, run.PathOf("b.survey.json"), "--json");
        Assert.InRange(map.RootElement.GetProperty("highestNetPpm").GetDouble(), 18, 20);
    }

    [Fact]
    public void MonitorWithoutNumbers_FindsHitsButDrawsNoField()
    {
        var readings = run.Write("r.csv", "time,ppm,fixture,at\n2026-09-01 06:00,0,C2,2\n2026-09-01 06:01,3,C2,6\n2026-09-01 06:02,0,C3,6\n");
        using var json = Json(0, "map", Layout, readings, "--kind", "level", "--json");
        Assert.Equal(1, json.RootElement.GetProperty("hits").GetInt32());
        Assert.Equal(0, json.RootElement.GetProperty("evidenceCells").GetInt32());
        Assert.Equal(0, run.Run("map", Layout, readings, "--kind", "level", "--out", run.PathOf("map")));
        Assert.Contains("This monitor shows no ppm", File.ReadAllText(run.PathOf(Path.Combine("map", "heat-map.svg"))));
        using var located = Json(0, "locate", Layout, Runner.Demo("2026-07-07.readings.csv"), "--kind", "hit", "--json");
        var zones = located.RootElement.GetProperty("zones").EnumerateArray().ToList();
        Assert.NotEmpty(zones);
        Assert.All(zones, z =>
        {
            Assert.Equal("unknown", z.GetProperty("strength").GetString());
            Assert.Contains("hit from no hit", z.GetProperty("reason").GetString());
            Assert.DoesNotContain("over range", z.GetProperty("reason").GetString());
        });
        Assert.Equal(2, run.Run("map", Layout, readings, "--kind", "nose"));
        Assert.Contains("display-ppm", run.Error);
    }

    private static string Layout => Runner.Demo("tern-hollow.layout.json");

    private JsonDocument Json(int code, params string[] args)
    {
        Assert.Equal(code, run.Run(args));
        return JsonDocument.Parse(run.Out);
    }

    // There from 30 s to 54 s, back from 70 s to 94 s.
    private string Marks(double clock) => run.Write("marks.csv",
        $"time,fixture,at,event\n{At(30 + clock)},C1,0,start\n{At(54 + clock)},C1,24,end\n{At(70 + clock)},C1,24,start\n{At(94 + clock)},C1,0,end\n");

    private string Log()
    {
        var (level, keep) = (0.0, Math.Exp(-0.1 * Math.Log(10) / 5));
        var rows = new List<string> { "time,ppm" };
        for (var k = 0; k <= 1500; k++)
        {
            var t = (k / 10.0) - DelaySeconds;
            var feet = t is >= 30 and <= 54 ? t - 30 : t is >= 70 and <= 94 ? 94 - t : -1;
            level = (keep * level) + ((1 - keep) * (feet is >= 10 and <= 12 ? 30 : 0));
            if (k % 10 == 0) rows.Add($"{At(k / 10.0)},{Math.Round(level).ToString(CultureInfo.InvariantCulture)}");
        }

        return run.Write("log.csv", string.Join('\n', rows) + "\n");
    }

    private static string At(double seconds) => Start.AddSeconds(seconds).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
}
