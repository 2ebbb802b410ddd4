using StoreMap.Air;

namespace StoreMap.Fields;

/// <summary>One connected body of air with its readings.</summary>
internal sealed class FieldBody
{
    private readonly Supernodes nodes;
    private readonly FactorSpace space = new();
    private (double Range, SymmetricMatrix Precision) known;

    private FieldBody(int component, GridOperator op, int[] observed, FieldSite[] sites, int[] at, double range)
    {
        (Component, Operator, Observed, Sites, At) = (component, op, observed, sites, at);
        var pattern = Precision(range);
        nodes = Supernodes.Of(pattern, op.OrderFor(pattern, observed), observed.Length);
    }

    /// <summary>Its number in the grid.</summary>
    public int Component { get; }

    /// <summary>Its operator.</summary>
    public GridOperator Operator { get; }

    /// <summary>Unknowns of the operator that hold readings, ascending.</summary>
    public int[] Observed { get; }

    /// <summary>The readings.</summary>
    public FieldSite[] Sites { get; }

    /// <summary>Place of each reading in <see cref="Observed"/>.</summary>
    public int[] At { get; }

    /// <summary>Sorts readings into bodies of air, in order of the bodies' numbers.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="sites">The readings.</param>
    /// <param name="range">The range that is likely asked for first, metres.</param>
    public static IReadOnlyList<FieldBody> Of(AirGrid grid, IEnumerable<FieldSite> sites, double range)
    {
        var bodies = new List<FieldBody>();
        foreach (var group in sites.GroupBy(s => grid.ComponentOf[s.Cell]).OrderBy(g => g.Key))
        {
            var op = GridOperator.Of(grid, group.Key);
            var own = group.ToArray();
            int[] observed = [.. own.Select(s => op.LocalOf(s.Cell)).Distinct().Order()];
            bodies.Add(new FieldBody(group.Key, op, observed, own, Array.ConvertAll(own, s => Array.BinarySearch(observed, op.LocalOf(s.Cell))), range));
        }

        return bodies;
    }

    /// <summary>The same body with the readings of so many of its cells, evenly taken in their order.</summary>
    public FieldBody Only(int cells)
    {
        int[] kept = [.. Enumerable.Range(0, cells).Select(i => (int)((long)i * Observed.Length / cells))];
        var place = new int[Observed.Length];
        Array.Fill(place, -1);
        for (var i = 0; i < kept.Length; i++) place[kept[i]] = i;
        int[] sites = [.. Enumerable.Range(0, Sites.Length).Where(k => place[At[k]] >= 0)];
        return new FieldBody(
            Component, Operator, [.. kept.Select(i => Observed[i])], [.. sites.Select(k => Sites[k])], [.. sites.Select(k => place[At[k]])], known.Range);
    }

    /// <summary>The field's precision at a range, factored down to the cells with readings. The body's factor of before ends with it.</summary>
    public SparseCholesky Factor(double range) => SparseCholesky.Factor(Precision(range), nodes, space);

    private SymmetricMatrix Precision(double range)
    {
        if (known.Precision is null || known.Range != range)
        {
            var ranges = new double[Operator.Count];
            Array.Fill(ranges, range);
            known = (range, Operator.Precision(ranges));
        }

        return known.Precision;
    }
}
