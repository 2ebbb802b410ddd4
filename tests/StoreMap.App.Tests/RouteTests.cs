using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>The verb <c>route</c> end to end: likeliest first, an order kept, replanned on the way.</summary>
public sealed class RouteTests : IDisposable
{
    private readonly Runner run = new();

    public void Dispose() => run.Dispose();

    [Fact]
    public void Route_KeptAndReplanned_AnswersFromItsOwnFile()
    {
        var layout = Runner.Demo("tern-hollow.layout.json");
        Assert.Equal(0, run.Run("route", layout, "--effort", "500", "--json"));
        var file = run.Write("route.json", run.Out);
        using var route = JsonDocument.Parse(run.Out);
        var order = route.RootElement.GetProperty("order").EnumerateArray().Select(e => e.GetString()!).ToList();

        Assert.Equal(0, run.Run("route", layout, "--effort", "500", "--keep", file, "--json"));
        using var kept = JsonDocument.Parse(run.Out);
        Assert.True(kept.RootElement.GetProperty("keep").GetProperty("kept").GetBoolean());
        Assert.Equal(0, kept.RootElement.GetProperty("keep").GetProperty("savingMinutes").GetDouble());

        Assert.Equal(0, run.Run("route", layout, "--replan", file, "--at", "72,4", "--done", string.Join(",", order.Take(3)), "--unreachable", "W2", "--close-in", "C3,12.5", "--json"));
        using var rest = JsonDocument.Parse(run.Out);
        Assert.Equal(3, rest.RootElement.GetProperty("replanned").GetProperty("done").GetInt32());
        Assert.Equal("here", rest.RootElement.GetProperty("legs")[0].GetProperty("from").GetString());
        Assert.Contains(rest.RootElement.GetProperty("order").EnumerateArray(), e => e.GetString() == "C3-N12.5");
    }

    [Fact]
    public void Route_LikeliestFirst_SaysWhatItGainsAndCosts()
    {
        Assert.Equal(0, run.Run("route", Runner.Demo("tern-hollow.layout.json"), "--effort", "500", "--risk", "--service", Runner.Demo("tern-hollow.service.json"), "--json"));
        using var json = JsonDocument.Parse(run.Out);
        var risk = json.RootElement.GetProperty("risk");
        Assert.True(risk.GetProperty("expectedMinutes").GetDouble() < risk.GetProperty("usualExpectedMinutes").GetDouble());
        Assert.True(json.RootElement.GetProperty("length").GetDouble() <= 1.1 * risk.GetProperty("usualLength").GetDouble());
        Assert.Equal(5, risk.GetProperty("likeliest").GetArrayLength());
    }

    [Theory]
    [InlineData("--risk --points p.csv", "--risk")]
    [InlineData("--replan r.json", "--at")]
    [InlineData("--at 3,4", "--replan")]
    [InlineData("--replan r.json --at here", "--at")]
    [InlineData("--replan r.json --at 3,4 --risk", "--replan")]
    [InlineData("--risk --risk-growth 3", "--risk-growth")]
    [InlineData("--service s.json", "--risk")]
    public void Route_OptionsThatDoNotGoTogether_AreWrongUsage(string options, string named)
    {
        Assert.Equal(2, run.Run(["route", Runner.Demo("tern-hollow.layout.json"), .. options.Split(' ')]));
        Assert.Contains(named, run.Error);
    }

    [Fact]
    public void Route_ReplannedFromAFileThatIsNoRoute_IsRefused()
    {
        var file = run.Write("route.json", "{}");
        Assert.Equal(1, run.Run("route", Runner.Demo("tern-hollow.layout.json"), "--replan", file, "--at", "1,2"));
        Assert.Contains("units must be", run.Error);
    }
}
