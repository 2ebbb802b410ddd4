using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>The clock of a walk, checks fitted into defrosts, and how long a night may get.</summary>
public class RouteClockTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.5, 2)]
    [InlineData(1, 3)]
    [InlineData(2, 5)]
    [InlineData(5, 9)]
    [InlineData(10, 15)]
    public void MostHits_IsThe95thPercentileOfThePoissonLaw(double expected, int hits)
    {
        // Cumulative Poisson table of any statistics handbook: F(2; 0.5) = 0.986, F(3; 1) = 0.981, F(5; 2) = 0.983, F(9; 5) = 0.968, F(15; 10) = 0.951.
        Assert.Equal(hits, Forecast.MostHits(expected));
    }

    [Fact]
    public void Of_HitsAndPace_AddUpByHand()
    {
        // 7 points 2 ft apart: 7 · (15 s + 0.6096 m / 0.8 m/s) and 10 minutes a hit.
        var perHit = 10 + (7 * (15 + (0.6096 / 0.8)) / 60);
        var forecast = Forecast.Of(new RouteMinutes(20, 60, 10, 40), 2, 1.5, new Protocol());
        Assert.Equal(perHit, forecast.MinutesPerHit, 1e-12);
        Assert.Equal(40 + (1.5 * 90) + (2 * perHit), forecast.Likely, 1e-12);
        Assert.Equal(40 + (1.5 * 90) + (5 * perHit), forecast.BadNight, 1e-12);
    }

    [Fact]
    public void Pace_VisitAtHalfTheSpeedPlanned_IsTwo()
    {
        var (plan, draft, paths, _) = Scene();
        var front = draft.Points.Where(p => p.Pass == ProbePass.Front).ToList();
        var gaps = front.Zip(front.Skip(1)).Where(p => p.First.Fixture == p.Second.Fixture)
            .Select(p => new WalkedGap(p.First.Id, p.Second.Id, 2 * ((p.First.Stand.DistanceTo(p.Second.Stand) / 0.8) + p.Second.DwellSeconds))).ToList();
        Assert.Equal(2, Forecast.Pace(plan, paths, draft.Points, [.. gaps, new(front[0].Id, front[1].Id, 5000), new("x", "y", 3)], new Protocol())!.Value, 1e-9);
        Assert.Null(Forecast.Pace(plan, paths, draft.Points, gaps.Take(9), new Protocol()));
    }

    [Fact]
    public void Gaps_OfASurvey_AreTheTimesBetweenPoints()
    {
        var start = new DateTimeOffset(2026, 8, 4, 6, 0, 0, TimeSpan.Zero);
        Reading At(double seconds, string? point) => new() { Time = start.AddSeconds(seconds), Ppm = 1, Place = new ReadingPlace { Point = point, At = new(0, 0) } };
        var survey = new Survey { Store = "s", Start = start, Instruments = [new Instrument { Id = "i" }], Readings = [At(0, "a"), At(20, "b"), At(25, "b"), At(60, "c"), At(70, null), At(90, "d")] };
        Assert.Equal([new WalkedGap("a", "b", 20), new WalkedGap("b", "c", 35)], VisitGaps.Of(survey));
    }

    [Fact]
    public void Clock_BeginsAtSignInAndEndsWhenAllIsWrittenUp()
    {
        var (_, _, _, route) = Scene("off-cycle", "06:20");
        var clock = route.Clock!;
        // Sign-in 10 and warm-up 5 minutes, then the zero of 2 minutes.
        Assert.Equal(new TimeOnly(6, 17), clock.Read[0]);
        Assert.Equal(route.Order.Count, clock.Read.Count);
        Assert.True(clock.Read.Zip(clock.Read.Skip(1)).All(p => p.First <= p.Second));
        Assert.Equal(route.Minutes.Total, (clock.End - clock.Begin).TotalMinutes, 0.02);
        // Off-cycle defrost runs the fans: nothing to fit.
        Assert.Empty(clock.Checks);
    }

    [Theory]
    [InlineData("electric")]
    [InlineData("hot-gas")]
    public void Clock_DefrostThatStopsTheFans_IsMetOrVisited(string kind)
    {
        var (_, draft, _, _) = Scene();
        for (var minute = 18; minute < 40; minute += 2)
        {
            var (_, _, _, route) = Scene(kind, $"06:{minute:00}");
            var check = Assert.Single(route.Clock!.Checks);
            Assert.Equal(new TimeOnly(6, minute), check.From);
            Assert.All(check.Points, id => Assert.StartsWith("C2", id, StringComparison.Ordinal));
            if (check.Kind == TimedCheckKind.Missed) continue;
            // Five minutes until the air is still, and done before the fans start again.
            Assert.InRange(check.At!.Value, new TimeOnly(6, minute + 5), new TimeOnly(6, minute).AddMinutes(20));
            Assert.NotEmpty(check.Points);
            if (check.Kind == TimedCheckKind.Detour)
            {
                Assert.True(check.Minutes > 0);
                Assert.Null(route.Clock.Change);
                Assert.Equal(route.Minutes.Total + check.Minutes, (route.Clock.End - route.Clock.Begin).TotalMinutes, 0.03);
                var group = draft.Groups.First(g => g.Points.Contains(check.After!));
                Assert.True(check.After == group.Points[^1] || check.After == group.Points[0]);
            }
        }
    }

    [Fact]
    public void Clock_DefrostOutsideTheVisit_IsLeftOut() => Assert.Empty(Scene("electric", "02:00").Route.Clock!.Checks);

    [Theory]
    [InlineData("06:00", "09:00", "12:00", 1)]
    [InlineData("06:00", "06:10", "12:00", -1)]
    [InlineData("06:00", "04:00", "12:00", -1)]
    [InlineData("22:00", "23:00", "02:00", 1)]
    [InlineData("23:30", "23:00", "02:00", -1)]
    [InlineData("03:00", "23:00", "02:00", 0)]
    public void Plan_RoomWithSprays_IsWalkedBeforeItsWorkStartsOrLast(string begin, string from, string to, int place)
    {
        static TimeOnly Time(string text) => TimeOnly.ParseExact(text, "HH:mm", null);
        var bakery = new Room("R1", "Bakery", RoomKind.Bakery, StoreScene.Box(0, 60, 60, 100), [new(StoreScene.Feet(20, 60), StoreScene.Feet(26, 60))], true, 3) { Work = [(Time(from), Time(to))] };
        var plan = StoreScene.Store(
            StoreScene.Case("C1", FixtureKind.OpenCase, 120, 40, 36), StoreScene.Case("C2", FixtureKind.OpenCase, 20, 80, 12)) with { Rooms = [bakery] };
        var draft = ProbePlanner.Draft(plan, new Protocol());
        var route = RoutePlanner.Plan(plan, new WalkingPaths(FreeFloor.Build(plan, 0.3), threads: 1), draft, new RouteRequest { Begin = Time(begin), Budget = new TourBudget { Effort = 500, BoundWork = 1_000_000 } });
        var order = route.Order.ToList();
        var sprayed = draft.Groups.Where(g => g.Room == "R1").SelectMany(g => g.Points).Select(id => order.IndexOf(id)).Order().ToList();
        var (first, last) = (Enumerable.Range(1, sprayed.Count), Enumerable.Range(order.Count - sprayed.Count, sprayed.Count));
        if (place > 0) Assert.Equal(first, sprayed);
        else if (place < 0) Assert.Equal(last, sprayed);
        Assert.True(route.LowerBound <= route.Length && route.MinutesLowerBound <= route.Minutes.Total);
    }

    private static (Plan Plan, ProbeDraft Draft, WalkingPaths Paths, Route Route) Scene(string kind = "off-cycle", string start = "12:00")
    {
        var cases = Enumerable.Range(1, 4).Select(i => StoreScene.Case($"C{i}", FixtureKind.OpenCase, 20 + (i * 5), 5 + (i * 20), 60)).ToList();
        cases[1] = cases[1] with { Sections = [cases[1].Sections[0] with { Circuit = "A2" }] };
        var plan = StoreScene.Store([.. cases]);
        plan = plan with { Circuits = [.. plan.Circuits, new("A2", "A", [], new Defrost(kind, [TimeOnly.ParseExact(start, "HH:mm", null)], 20))] };
        var protocol = new Protocol { DwellSeconds = 30 };
        var draft = ProbePlanner.Draft(plan, protocol);
        var paths = new WalkingPaths(FreeFloor.Build(plan, 0.3), threads: 1);
        var request = new RouteRequest { Protocol = protocol, Begin = new(6, 0), Budget = new TourBudget { Effort = 500, BoundWork = 1_000_000 } };
        return (plan, draft, paths, RoutePlanner.Plan(plan, paths, draft, request));
    }
}
