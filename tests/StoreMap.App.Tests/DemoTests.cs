using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>The whole job on the demo store, judged against what the simulator really let leak (layouts/tern-hollow/truth.md).</summary>
public sealed class DemoTests : IClassFixture<DemoTests.Done>
{
    private readonly Done done;

    public DemoTests(Done done) => this.done = done;

    [Fact]
    public void Demo_RunsToTheEndAndListsItsSheets()
    {
        Assert.Equal(0, done.Code);
        foreach (var sheet in new[] { "walk.svg", "heat-map.svg", "heat-map.png", "heat-map.pdf", "leak-zones.pdf", "report.pdf" }) Assert.Contains(sheet, done.Out);
    }

    [Fact]
    public void RecurringLeakAtTheDrop_IsInTheFirstTwoPanelsOpenedAtItsCase() => Assert.Contains("C2/1", OpenAt("C2").Take(2));

    [Fact]
    public void BaseLeakUnderTheProduceLineUp_IsInTheFirstTwoPanelsOpenedAtItsCase() => Assert.Contains("C28/5", OpenAt("C28").Take(2));

    [Fact]
    public void BaseLeak_StrengthRangeHoldsItsTruth()
    {
        var zone = Located.GetProperty("zones").EnumerateArray().First(z => z.GetProperty("fixture").GetString() == "C28");
        const double truth = 70 / 0.45359237;
        Assert.InRange(truth, zone.GetProperty("strengthLbPerYearLow").GetDouble(), zone.GetProperty("strengthLbPerYearHigh").GetDouble());
    }

    [Fact]
    public void LineOverTheFrozenCases_IsPinnedOnNoCase()
    {
        Assert.DoesNotContain(Located.GetProperty("zones").EnumerateArray(), z => z.GetProperty("fixture").GetString() is "C11" or "C14");
        var elsewhere = Located.GetProperty("elsewhere").EnumerateArray().First(e => e.GetProperty("near").GetString() is "C11" or "C14");
        Assert.True(elsewhere.GetProperty("probability").GetDouble() > 0.5);
    }

    [Fact]
    public void CleanFixtures_ComeOutAsNoLeakSeenWithTheSmallestThatWouldHaveShown()
    {
        var quiet = Located.GetProperty("noLeakSeen").EnumerateArray().ToDictionary(n => n.GetProperty("fixture").GetString()!);
        var leaking = new[] { "C2", "C28" };
        var fixtures = done.Document("store", "tern-hollow.layout.json").GetProperty("fixtures").EnumerateArray().Select(f => f.GetProperty("id").GetString()!);
        foreach (var clean in fixtures.Except(leaking))
        {
            var smallest = quiet[clean].GetProperty("smallestSeen");
            Assert.True(smallest.GetProperty("ppm").GetDouble() > 0);
            Assert.True(smallest.GetProperty("lbPerYearLow").GetDouble() < smallest.GetProperty("lbPerYearHigh").GetDouble());
        }
    }

    [Fact]
    public void RepairedLeak_IsNoLongerSeenAndTheRecordSaysRepaired()
    {
        var zone = Compared.GetProperty("zones").EnumerateArray().Single(z => z.GetProperty("fixture").GetString() == "C16");
        Assert.Equal("no-longer-seen", zone.GetProperty("change").GetString());
        Assert.Contains("epaired 2026-06-18", zone.GetProperty("service").GetString());
    }

    [Fact]
    public void RecurringLeak_IsRecurring() => Assert.Equal("recurring", Compared.GetProperty("zones").EnumerateArray()
        .Single(z => z.GetProperty("fixture").GetString() == "C2").GetProperty("change").GetString());

    [Fact]
    public void MoreRefrigerantThanTheLeaksExplain_DoesNotAddUp() => Assert.False(Compared.GetProperty("balances").EnumerateArray()
        .Single(b => b.GetProperty("system").GetString() == "A").GetProperty("addsUp").GetBoolean());

    [Fact]
    public void SameRunTwice_GivesTheSameBytes()
    {
        using var again = new Runner();
        Assert.Equal(0, again.Run("demo", "--out", again.PathOf("demo")));
        var names = done.Runner.Files();
        Assert.Equal(names, again.Files());
        Assert.All(names, n => Assert.True(File.ReadAllBytes(done.Runner.PathOf(n)).AsSpan().SequenceEqual(File.ReadAllBytes(again.PathOf(n))), n));
    }

    private JsonElement Located => done.Document("locate", "locate.json");

    private JsonElement Compared => done.Document("compare", "compare.json");

    private IEnumerable<string> OpenAt(string fixture) =>
        Located.GetProperty("open").EnumerateArray().Select(p => p.GetString()!).Where(p => p.StartsWith(fixture + "/", StringComparison.Ordinal));

    /// <summary>One run of the demo for all tests.</summary>
    public sealed class Done : IDisposable
    {
        public Done()
        {
            Code = Runner.Run("demo", "--out", Runner.PathOf("demo"));
            Out = Runner.Out;
        }

        internal Runner Runner { get; } = new();

        public int Code { get; }

        public string Out { get; }

        public JsonElement Document(params string[] parts) =>
            JsonDocument.Parse(File.ReadAllText(Runner.PathOf(Path.Combine(["demo", .. parts])))).RootElement;

        public void Dispose() => Runner.Dispose();
    }
}
