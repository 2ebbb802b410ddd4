using System.Diagnostics;
using System.Globalization;
using Google.OrTools.ConstraintSolver;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.Benchmarks;

/// <summary>Distances, tours in the time allowed and at the default effort, bounds, the demo store; with a general routing library given ten times
/// the time allowed. Seconds are of the processor, so that what else the machine does leaves them alone.</summary>
internal static class RoutingBenchmark
{
    public static int All(bool beside)
    {
        Matrix();
        foreach (var (name, cap) in new[]
        {
            ("rand_uniform_n50", 1), ("rand_uniform_n100", 1), ("rand_uniform_n200", 1), ("rand_clustered_n400", 1), ("rand_uniform_n800", 4), ("rand_uniform_n1600", 10),
        })
        {
            var c = Instances.Tsp(name);
            Tour(name, c.Distances, c.Count, TourEnds.Closed, c.Best, cap, beside);
        }

        foreach (var name in new[] { "plan_a", "plan_b" })
        {
            var (plan, probes, tours) = Instances.Store(name);
            var distances = Instances.Distances(new WalkingPaths(FreeFloor.Build(plan, 0), 1).Between(probes));
            foreach (var (problem, ends) in new[] { ("closed_tour", TourEnds.Closed), ("open_path_free_ends", TourEnds.Open), ("open_path_from_probe_1", TourEnds.From(0)) })
                Tour($"{name} {problem}", distances, probes.Length, ends, tours.GetProperty(problem).GetProperty("best_length_m").GetDouble(), 1, beside);
        }

        Demo();
        return 0;
    }

    /// <summary>A published instance, a TSPLIB file of type EUC_2D, in four seconds.</summary>
    public static int Published(string file, double best)
    {
        var (distances, count) = Instances.TspLib(file);
        Tour(Path.GetFileNameWithoutExtension(file), distances, count, TourEnds.Closed, best, 4, beside: false);
        return 0;
    }

    /// <summary>The matrix of the made store and the demo store's route alone.</summary>
    public static int Store()
    {
        Matrix();
        Demo();
        return 0;
    }

    /// <summary>600 points among 300 obstacles on one core: time and memory, first and again in the same process, then the tour.</summary>
    private static void Matrix()
    {
        var (plan, points) = Rows(600);
        DistanceMatrix? matrix = null;
        for (var run = 1; run <= 5; run++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var clock = Stopwatch.StartNew();
            var start = Processor();
            var floor = FreeFloor.Build(plan, 0.3);
            var built = Processor() - start;
            var paths = new WalkingPaths(floor, 1);
            var prepared = Processor() - start;
            matrix = paths.Between(points);
            var took = Processor() - start;
            Say($"matrix {points.Length} points, {plan.Obstacles.Count} obstacles, run {run}: {clock.Elapsed.TotalSeconds:0.00} s, of the processor {took:0.00} s (floor {built:0.00}, corners {prepared - built:0.00}, points {took - prepared:0.00}), {(GC.GetAllocatedBytesForCurrentThread() - before) / 1e6:0} MB allocated, {Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:0} MB peak process");
        }

        Tour("made store", Instances.Distances(matrix!), points.Length, TourEnds.Closed, null, 3, beside: false);
    }

    /// <summary>The demo store's route and replanning in the middle of it.</summary>
    private static void Demo()
    {
        using var layout = File.OpenRead(Path.Combine("layouts", "tern-hollow", "tern-hollow.layout.json"));
        var plan = LayoutDocument.Read(layout, "tern-hollow").Plan;
        for (var run = 1; run <= 2; run++)
        {
            var start = Processor();
            var paths = new WalkingPaths(FreeFloor.Build(plan, 0.3), 1);
            var draft = ProbePlanner.Draft(plan, new Protocol());
            var drafted = Processor() - start;
            var route = RoutePlanner.Plan(plan, paths, draft, new RouteRequest());
            var took = Processor() - start;
            start = Processor();
            _ = RoutePlanner.Plan(plan, new WalkingPaths(FreeFloor.Build(plan, 0.3), 1), ProbePlanner.Draft(plan, new Protocol()), new RouteRequest { Budget = new TourBudget { Effort = 5_000, BoundWork = 0 } });
            var client = Processor() - start;
            start = Processor();
            var at = route.Points.First(p => p.Id == route.Order[100]).Stand;
            var again = RouteReplanner.Replan(plan, paths, draft, EarlierRoute.Of(route), new ReplanRequest { At = at, Done = [.. route.Order.Take(100)] });
            Say($"demo, run {run}: {route.Order.Count} points, floor and draft {drafted:0.00} s, all {took:0.00} s, as the client asks for it {client:0.00} s, {route.Length:0.0} m; replanned at point 100 in {Processor() - start:0.00} s, {again.Order.Count} left");
        }
    }

    /// <summary>The tour in the time allowed, then at the default effort with its bound; the library gets ten times the time allowed.</summary>
    private static void Tour(string name, double[] distances, int count, TourEnds ends, double? best, double cap, bool beside)
    {
        var start = Processor();
        var capped = TourSearch.Run(distances, count, ends, new TourBudget { OutOfTime = () => Processor() - start > cap, Effort = long.MaxValue });
        start = Processor();
        var tour = TourSearch.Run(distances, count, ends, new TourBudget());
        var took = Processor() - start;
        start = Processor();
        var bound = LowerBound.Of(distances, count, ends, tour.Order);
        var bounded = Processor() - start;
        var known = Math.Min(best ?? double.PositiveInfinity, Math.Min(tour.Length, capped.Length));
        double? other = beside ? Beside(distances, count, ends, 10 * cap) : null;
        Say($"{name}: {count} points; in {cap} s {capped.Length:0.000} ({Share(capped.Length, best)}); default effort {tour.Length:0.000} ({Share(tour.Length, best)}) in {took:0.00} s; bound {100 * bound / known:0.00} % of best in {bounded:0.00} s{(other is { } o ? $"; OR-Tools {o:0.000} ({Share(o, best)}) in {10 * cap} s" : "")}");
    }

    /// <summary>Seconds of the processor spent so far: the time on a core of one's own, also where others keep it busy.</summary>
    private static double Processor() => Process.GetCurrentProcess().TotalProcessorTime.TotalSeconds;

    private static string Share(double length, double? best) => best is { } b ? string.Create(CultureInfo.InvariantCulture, $"{100 * ((length / b) - 1):+0.000;-0.000} %") : "no best";

    /// <summary>Guided local search over rounded micrometres, after its cheapest-arc start.</summary>
    private static double Beside(double[] distances, int count, TourEnds ends, double seconds)
    {
        var size = ends.IsClosed ? count : count + 1;
        using var manager = new RoutingIndexManager(size, 1, ends.First ?? (ends.IsClosed ? 0 : count));
        using var model = new RoutingModel(manager);
        var far = (long)(distances.Max() * 1e6 * count);
        var cost = model.RegisterTransitCallback((from, to) =>
        {
            var (a, b) = (manager.IndexToNode(from), manager.IndexToNode(to));
            if (a < count && b < count) return (long)Math.Round(distances[(a * count) + b] * 1e6);
            // The stop between last and first; a fixed first one must follow it.
            return ends.First is { } first && a == count && b != first ? far : 0;
        });
        model.SetArcCostEvaluatorOfAllVehicles(cost);
        var how = operations_research_constraint_solver.DefaultRoutingSearchParameters();
        how.FirstSolutionStrategy = FirstSolutionStrategy.Types.Value.PathCheapestArc;
        how.LocalSearchMetaheuristic = LocalSearchMetaheuristic.Types.Value.GuidedLocalSearch;
        how.TimeLimit = new Google.Protobuf.WellKnownTypes.Duration { Seconds = (long)Math.Ceiling(seconds) };
        using var found = model.SolveWithParameters(how);
        return found.ObjectiveValue() / 1e6;
    }

    /// <summary>A made store of 90 x 60 m: 12 x 25 shelving pieces in rows with cross aisles, points along their fronts by a fixed rule.</summary>
    private static (Plan Plan, PlanPoint[] Points) Rows(int count)
    {
        var obstacles = new List<Obstacle>();
        var places = new List<PlanPoint>();
        for (var row = 0; row < 25; row++)
        {
            for (var piece = 0; piece < 12; piece++)
            {
                double x = 3 + (piece * 7.1) + (row % 3 * 0.4), y = 3 + (row * 2.2);
                obstacles.Add(new($"G{obstacles.Count}", "shelving", [new(x, y), new(x + 5.2, y), new(x + 5.2, y + 0.6), new(x, y + 0.6)]));
                places.Add(new(x + 0.7 + (0.9 * (piece * 7 % 4)), y - 0.4));
                places.Add(new(x + 0.9 + (0.8 * (row * 5 % 5)), y + 1.0));
            }
        }

        var plan = new Plan { Id = "made", Name = "made", Outline = [new(0, 0), new(92, 0), new(92, 62), new(0, 62)], Obstacles = obstacles };
        return (plan, [.. places.Take(count)]);
    }

    private static void Say(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
