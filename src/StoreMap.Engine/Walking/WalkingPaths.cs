using StoreMap.Plans;

namespace StoreMap.Walking;

/// <summary>A walk: its corners with both ends, plan metres, and its length.</summary>
/// <param name="Corners">Places in walking order; the first and last are where the feet stand.</param>
/// <param name="Length">Metres.</param>
public sealed record WalkPath(IReadOnlyList<PlanPoint> Corners, double Length);

/// <summary>Exact shortest walks on a free floor. Immutable once made; safe to share between threads.</summary>
/// <remarks>Reduced visibility graph with exact predicates, one Dijkstra search per point. O(n² k) for n corners and k edges met by a
/// line of sight, then O(m log n) a point for m graph edges. See docs/walking.md.</remarks>
public sealed class WalkingPaths
{
    private readonly FreeFloor floor;
    private readonly VisibilityGraph graph;
    private readonly int threads;

    /// <summary>Prepares the graph of a free floor.</summary>
    /// <param name="floor">The free floor.</param>
    /// <param name="threads">Most threads to use, at least 1; -1 for all cores. The answer does not depend on it.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number of threads is 0 or less than -1.</exception>
    public WalkingPaths(FreeFloor floor, int threads = -1, CancellationToken cancellation = default)
    {
        this.floor = floor;
        this.threads = threads;
        graph = VisibilityGraph.Of(floor.Grid, threads, cancellation);
    }

    /// <summary>The floor walked on.</summary>
    public FreeFloor Floor => floor;

    /// <summary>Walking distances between all points.</summary>
    /// <param name="points">Plan points, metres; a point off the free floor stands at the nearest free place.</param>
    /// <param name="names">Names of the points for problems; by default their numbers from 1.</param>
    /// <param name="progress">Told the share done, in [0, 1]; from any thread.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The matrix, with a warning for each point moved and an error for each that can't be reached from the others.</returns>
    /// <exception cref="RefusedInputException">There is no free floor.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public DistanceMatrix Between(
        IReadOnlyList<PlanPoint> points, IReadOnlyList<string>? names = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        var stands = points.Select(StandAt).ToArray();
        var n = points.Count;
        var attachments = new Attachment[n];
        RowWork.Run(n, () => new SightLine(graph.Grid), (i, sight) => attachments[i] = Attachment.Of(stands[i].Place, graph, sight), threads, cancellation);

        var lengths = new double[(long)n * n];
        var done = 0;
        RowWork.Run(n, () => (Sight: new SightLine(graph.Grid), Search: new ShortestPaths(graph)), (i, own) =>
        {
            own.Search.From(attachments[i]);
            for (var j = i + 1; j < n; j++)
            {
                var straight = Attachment.Straight(stands[i].Place, stands[j].Place, own.Sight);
                lengths[(i * n) + j] = lengths[(j * n) + i] = own.Search.To(attachments[j], straight).Length;
            }

            progress?.Report(Interlocked.Increment(ref done) / (double)n);
        }, threads, cancellation);

        return new DistanceMatrix(this, [.. stands.Select(s => s.Standing)], lengths, StandingProblems.Of(stands.Select(s => s.Standing).ToList(), names));
    }

    /// <summary>Tells the shortest walk between every two points, the first with the lower number; much quicker than one by one.</summary>
    /// <param name="points">Plan points; off the free floor the nearest free place stands for one.</param>
    /// <param name="tell">Told the two numbers and the corners, which are not kept; places that can't be reached are left out.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="RefusedInputException">There is no free floor.</exception>
    public void ForEach(IReadOnlyList<PlanPoint> points, Action<int, int, IReadOnlyList<PlanPoint>> tell, CancellationToken cancellation = default)
    {
        var stands = points.Select(StandAt).ToArray();
        var (sight, search) = (new SightLine(graph.Grid), new ShortestPaths(graph));
        Attachment[] attachments = [.. stands.Select(s => Attachment.Of(s.Place, graph, sight))];
        var corners = new List<PlanPoint>();
        for (var i = 0; i < points.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            search.From(attachments[i]);
            for (var j = i + 1; j < points.Count; j++)
            {
                var (length, node) = search.To(attachments[j], Attachment.Straight(stands[i].Place, stands[j].Place, sight));
                if (!double.IsFinite(length)) continue;
                corners.Clear();
                corners.Add(stands[j].Standing.At);
                for (; node >= 0; node = search.Before[node]) corners.Add(Corner(node));
                corners.Add(stands[i].Standing.At);
                tell(i, j, corners);
            }
        }
    }

    /// <summary>The shortest walk between two points.</summary>
    /// <param name="from">Plan point; off the free floor the nearest free place stands for it.</param>
    /// <param name="to">Plan point, likewise.</param>
    /// <returns>The walk; null when there is none. Of walks of equal length always the same one.</returns>
    /// <exception cref="RefusedInputException">There is no free floor.</exception>
    public WalkPath? Path(PlanPoint from, PlanPoint to)
    {
        var (a, b) = (StandAt(from), StandAt(to));
        if (a.Place.Region != b.Place.Region) return null;
        var sight = new SightLine(graph.Grid);
        var straight = Attachment.Straight(a.Place, b.Place, sight);
        if (double.IsFinite(straight)) return new([a.Standing.At, b.Standing.At], straight);
        var search = new ShortestPaths(graph);
        search.From(Attachment.Of(a.Place, graph, sight));
        var (length, node) = search.To(Attachment.Of(b.Place, graph, sight), straight);
        var corners = new List<PlanPoint> { b.Standing.At };
        for (; node >= 0; node = search.Before[node])
        {
            var corner = Corner(node);
            if (corner != corners[^1]) corners.Add(corner);
        }

        if (corners[^1] != a.Standing.At) corners.Add(a.Standing.At);
        corners.Reverse();
        return new(corners, length);
    }

    private PlanPoint Corner(int node) => new(Lattice.ToMetres(graph.X[node]), Lattice.ToMetres(graph.Y[node]));

    private (Place Place, Standing Standing) StandAt(PlanPoint point) => floor.StandAt(point) ?? throw new RefusedInputException(
    [
        new Problem(Severity.Error, null, null, null, null, "no-free-floor", FormattableString.Invariant(
            $"With a clearance of {floor.ClearanceMetres:0.###} m there is no floor left to walk on. Use a smaller clearance.")),
    ]);
}
