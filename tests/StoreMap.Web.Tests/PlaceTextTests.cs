using System.Runtime.Versioning;
using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Web.Solving;
using StoreMap.Zones;

namespace StoreMap.Tests;

/// <summary>What the card on the map says of a pressed place: one thing, in a zone, beside it, on a clean case, where nobody probed and outside. Needs
/// no browser.</summary>
[SupportedOSPlatform("browser")]
public sealed class PlaceTextTests
{
    private static readonly Lazy<(Plan Plan, NetSurvey Net, FieldSampler Field, LocateResult Result)> Small = new(() =>
    {
        var plan = LayoutDocument.Parse(File.ReadAllText(Desk.Sample("small.layout.json"))).Plan;
        using var csv = File.OpenRead(Desk.Sample("small.readings.csv"));
        var net = NetSurveyBuilder.Build(plan, SurveyReader.Read(csv, "small.readings.csv", plan, ProbePlanner.Draft(plan, new Protocol()).Points, new SurveyReadOptions()).Survey);
        return (plan, net, new FieldSampler(plan, GasFieldBuilder.Build(plan, net, MapSettings.Live, null)), LeakLocator.Locate(plan, net, [], new LocateSettings()));
    });

    private static PlaceAnswer Of(PlanPoint at, bool located = true, LocateResult? result = null)
    {
        var (plan, net, field, found) = Small.Value;
        return PlaceText.Of(plan, net, field, located ? result ?? found : null, at);
    }

    private static PlanPoint Before(string fixture, double along, double metres)
    {
        var f = Small.Value.Plan.FindFixture(fixture)!;
        return f.Front!.PointAt(along) + (f.OutwardAt(along) * metres);
    }

    [Fact]
    public void Place_InAZone_BeginsWithItsLetterAndThenTheGas()
    {
        var zone = Small.Value.Result.Zones[0];
        var card = Of(Before(zone.Fixture, zone.Center!.Value, 0.1));
        Assert.StartsWith("In leak zone A: ", card.Lines[0], StringComparison.Ordinal);
        Assert.StartsWith("In the air here: about ", card.Lines[1], StringComparison.Ordinal);
        Assert.StartsWith("Read ", card.Lines[2], StringComparison.Ordinal);
        Assert.Contains(" here, fans ", card.Lines[2], StringComparison.Ordinal);
    }

    /// <summary>The case's own air was told as if it were the aisle's.</summary>
    [Fact]
    public void Place_OnACase_TellsOfTheAirInIt()
    {
        var zone = Small.Value.Result.Zones[0];
        var card = Of(Before(zone.Fixture, zone.Center!.Value, -0.4));
        Assert.StartsWith("In leak zone A: ", card.Lines[0], StringComparison.Ordinal);
        Assert.StartsWith("In the air of this case: about ", card.Lines[1], StringComparison.Ordinal);
    }

    /// <summary>A reading over the monitor's range stood in the answer as a number: 997 ppm for more than 1000, the room's 3 taken off.</summary>
    [Fact]
    public void Hits_OneOverRange_IsToldAsMoreThanItsNumber()
    {
        var (plan, net, _, found) = Small.Value;
        var highest = net.Readings.MaxBy(r => r.NetPpm)!;
        var over = net with { Readings = [.. net.Readings.Select(r => r == highest ? r with { Bound = ReadingBound.AtLeast } : r)] };
        Assert.DoesNotContain(AnswerText.Of(plan, net, found).Hits, h => h.Net.StartsWith("over ", StringComparison.Ordinal));
        var hit = Assert.Single(AnswerText.Of(plan, over, found).Hits, h => h.Net.StartsWith("over ", StringComparison.Ordinal));
        Assert.Equal(FormattableString.Invariant($"over {highest.NetPpm:0}"), hit.Net);
    }

    /// <summary>Gas read at a case without a leak stood there without its reason.</summary>
    [Fact]
    public void Place_AtACaseWithoutALeak_SaysSoWithTheReasonForItsGas()
    {
        var found = Small.Value.Result;
        var clean = found.NoLeakSeen[0];
        var at = Before(clean.Fixture, 0.5, 0.1);
        var tag = Small.Value.Plan.FindFixture(clean.Fixture)!.Tag;
        var explained = Of(at, result: found with { NoLeakSeen = [clean with { ExplainedBy = "the leak at 9Z" }] });
        Assert.Equal($"No leak seen at {tag}: its gas is that of the leak at 9Z.", explained.Lines[0]);
        Assert.StartsWith($"No leak seen at {tag}: one would show from ", Of(at, result: found with { NoLeakSeen = [clean with { ExplainedBy = null }] }).Lines[0], StringComparison.Ordinal);
        Assert.DoesNotContain(Of(at, located: false).Lines, l => l.Contains("leak", StringComparison.Ordinal));
    }

    [Fact]
    public void Place_BesideAZone_TellsWhereTheZoneIs()
    {
        var (plan, _, _, found) = Small.Value;
        var zone = found.Zones[0];
        var front = plan.FindFixture(zone.Fixture)!.Front!;
        var far = zone.From > front.Length - zone.To ? 0.0 : front.Length;
        Assert.StartsWith($"This place is outside the leak zone of {plan.FindFixture(zone.Fixture)!.Tag}: A at ", Of(Before(zone.Fixture, far, 0.1), result: found with { Zones = [zone] }).Lines[0], StringComparison.Ordinal);
    }

    /// <summary>Readings were listed of a place outside, and of one that stands behind a wall.</summary>
    [Fact]
    public void Place_OutsideOrWithoutAir_TellsNothingElse()
    {
        var outside = Of(new PlanPoint(9, -0.8));
        Assert.Equal(("Outside the store", 1), (outside.Place, outside.Lines.Count));
        var shelf = Small.Value.Plan.Obstacles[0].Outline;
        var on = Of(new PlanPoint(shelf.Average(p => p.X), shelf.Average(p => p.Y)));
        Assert.Equal("There is no air here to measure.", Assert.Single(on.Lines));
    }

    [Fact]
    public void Place_AtAnyPoint_NeverContradictsItself()
    {
        var plan = Small.Value.Plan;
        for (var x = -0.5; x < 18.5; x += 0.4)
        {
            for (var y = -0.5; y < 12.5; y += 0.4)
            {
                var card = Of(new PlanPoint(x, y));
                bool Says(string words) => card.Lines.Any(l => l.Contains(words, StringComparison.Ordinal));
                Assert.NotEmpty(card.Lines);
                Assert.False(Says("In leak zone") && Says("No leak seen"));
                Assert.False(Says("Not probed near enough") && (Says("ppm above room, 9 in 10") || Says("No reading of this air")));
                Assert.False(Says("There is no air") && card.Lines.Count > 1);
                // Another space's readings are not told.
                if (PlanPlaces.RoomAt(plan, new PlanPoint(x, y)) == "R1") Assert.DoesNotContain(card.Lines, l => l.StartsWith("Read ", StringComparison.Ordinal) && l.Contains("1A", StringComparison.Ordinal));
            }
        }
    }
}
