namespace StoreMap.Routing;

/// <summary>Tours relaxed to edge values between 0 and 1: two at every stop, forced edges at 1, and the inequalities found so far. The
/// dual values of any state give a bound that holds for all tours, whatever rounding did: every edge whose reduced cost is negative is
/// taken to be used.</summary>
internal sealed class TourRelaxation
{
    private readonly BoundProblem problem;
    private readonly BoxedDualSimplex simplex = new();
    private readonly List<(int A, int B)> edges = [];
    private readonly List<TourCut?> cuts = [];
    private readonly HashSet<string> known = [];
    private readonly HashSet<(int A, int B)> present = [];
    private readonly List<int> idle = [];

    public TourRelaxation(BoundProblem problem, IEnumerable<(int A, int B)> start)
    {
        this.problem = problem;
        for (var i = 0; i < problem.Count; i++)
        {
            simplex.AddRow([], 2, equal: true);
            cuts.Add(null);
            idle.Add(0);
        }

        foreach (var edge in problem.Forced) Add(edge, 1);
        foreach (var edge in start) Add(edge, 0);
        foreach (var block in problem.Blocks) Add(new TourCut(block, [], Equal: true));
    }

    /// <summary>Edges in the relaxation.</summary>
    public IReadOnlyList<(int A, int B)> Edges => edges;

    /// <summary>Work done, in multiplications.</summary>
    public long Work => simplex.Work;

    /// <summary>Solves it as it stands.</summary>
    public LinearEnd Solve(long work, CancellationToken cancel) => simplex.Solve(work, cancel);

    /// <summary>The edges in use.</summary>
    public SupportGraph Support()
    {
        var value = simplex.Solution();
        int[] used = [.. Enumerable.Range(0, value.Length).Where(e => value[e] > 1e-6)];
        return new SupportGraph(problem.Count, [.. used.Select(e => edges[e].A)], [.. used.Select(e => edges[e].B)], [.. used.Select(e => value[e])]);
    }

    /// <summary>Values of all edges.</summary>
    public double[] Values() => simplex.Solution();

    /// <summary>Adds inequalities that are not in yet.</summary>
    /// <returns>How many were added.</returns>
    public int Add(IEnumerable<TourCut> found)
    {
        var before = cuts.Count;
        foreach (var cut in found) Add(cut);
        return cuts.Count - before;
    }

    /// <summary>Takes out inequalities that have not been binding for some rounds.</summary>
    public void Tidy()
    {
        var gone = new List<int>();
        for (var row = problem.Count; row < cuts.Count; row++)
        {
            idle[row] = simplex.Slack(row) ? idle[row] + 1 : 0;
            if (idle[row] > 3 && !cuts[row]!.Equal) gone.Add(row);
        }

        if (gone.Count < 20) return;
        foreach (var row in gone) known.Remove(cuts[row]!.Key());
        var newRow = simplex.RemoveSlackRows(gone);
        for (var row = newRow.Length - 1; row >= 0; row--)
        {
            if (newRow[row] >= 0) continue;
            cuts.RemoveAt(row);
            idle.RemoveAt(row);
        }
    }

    /// <summary>Fixes an edge at a value, or frees it between 0 and 1.</summary>
    public void SetBounds(int edge, double lower, double upper) =>
        (simplex.Columns[edge].Lower, simplex.Columns[edge].Upper) = (lower, upper);

    /// <summary>The bound over the edges of the relaxation alone, within the bounds set.</summary>
    public double Bound()
    {
        var dual = Duals();
        var sum = DualSum(dual);
        foreach (var column in simplex.Columns)
        {
            var reduced = column.Cost - column.Times(dual);
            sum += reduced * (reduced > 0 ? column.Lower : column.Upper);
        }

        return sum;
    }

    /// <summary>The bound over all edges, and what each edge costs more than the dual values pay.</summary>
    public (double Bound, double[] Reduced) FullBound()
    {
        var n = problem.Count;
        var dual = Duals();
        var reduced = (double[])problem.Distances.Clone();
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++) reduced[(i * n) + j] -= dual[i] + dual[j];
        }

        for (var row = n; row < cuts.Count; row++)
        {
            if (dual[row] != 0) Charge(cuts[row]!, dual[row], reduced);
        }

        var sum = DualSum(dual);
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++) sum += Math.Min(0, reduced[(i * n) + j]);
        }

        // A forced edge counts also when it costs more than is paid.
        foreach (var (a, b) in problem.Forced) sum += Math.Max(0, reduced[(a * n) + b]);
        return (sum, reduced);
    }

    /// <summary>Adds edges.</summary>
    /// <returns>How many were new.</returns>
    public int Add(IEnumerable<(int A, int B)> more)
    {
        var before = edges.Count;
        foreach (var edge in more) Add(edge, 0);
        return edges.Count - before;
    }

    private void Charge(TourCut cut, double dual, double[] reduced)
    {
        var n = problem.Count;
        var few = 2 * cut.Inside.Count(x => x) <= n;
        for (var i = 0; i < n; i++)
        {
            if (cut.Inside[i] != few) continue;
            for (var j = 0; j < n; j++)
            {
                if (cut.Inside[j] == few) continue;
                reduced[(i * n) + j] -= dual;
                reduced[(j * n) + i] -= dual;
            }
        }

        foreach (var (a, b) in cut.Teeth)
        {
            reduced[(a * n) + b] += 2 * dual;
            reduced[(b * n) + a] += 2 * dual;
        }
    }

    private double[] Duals()
    {
        var dual = new double[cuts.Count];
        // A negative price of an inequality would not bound anything.
        for (var row = 0; row < dual.Length; row++) dual[row] = cuts[row] is { Equal: false } ? Math.Max(0, simplex.Dual(row)) : simplex.Dual(row);
        return dual;
    }

    private double DualSum(double[] dual)
    {
        var sum = 0.0;
        for (var row = 0; row < dual.Length; row++) sum += dual[row] * (cuts[row]?.Side ?? 2);
        return sum;
    }

    private void Add((int A, int B) edge, double lower)
    {
        var (a, b) = edge.A < edge.B ? edge : (edge.B, edge.A);
        if (!present.Add((a, b))) return;
        var column = new LinearVariable { Cost = problem.Between(a, b), Lower = lower, Upper = 1 };
        column.Add(a, 1);
        column.Add(b, 1);
        for (var row = problem.Count; row < cuts.Count; row++)
        {
            if (cuts[row]!.Of(a, b) is var entry and not 0) column.Add(row, entry);
        }

        edges.Add((a, b));
        simplex.AddColumn(column);
    }

    private void Add(TourCut cut)
    {
        if (!known.Add(cut.Key())) return;
        var entries = new List<(LinearVariable, double)>();
        for (var e = 0; e < edges.Count; e++)
        {
            if (cut.Of(edges[e].A, edges[e].B) is var entry and not 0) entries.Add((simplex.Columns[e], entry));
        }

        simplex.AddRow(entries, cut.Side, cut.Equal);
        cuts.Add(cut);
        idle.Add(0);
    }
}
