using StoreMap.Air;
using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>What the heat maps of one store in cells of one size have in common, whatever was read: kept by the caller from one visit, or one
/// reading more, to the next. Not safe for several threads at once.</summary>
public sealed class FieldGround
{
    private readonly Dictionary<(int Component, double Range), double[]> variances = new();

    private FieldGround(Plan plan, double cellMetres) => (Plan, Grid) = (plan, AirGrid.Build(plan, cellMetres));

    internal Plan Plan { get; }

    internal AirGrid Grid { get; }

    /// <summary>Lays a store out in cells.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="cellMetres">Side of a cell, metres, in [0.01, 5].</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell is outside its range, or more than four million cells are asked for.</exception>
    public static FieldGround Of(Plan plan, double cellMetres) => new(plan, cellMetres);

    /// <summary>Variance of the raw field in each cell of a body of air before anything was read.</summary>
    internal double[] Variances(int component, double range, Func<double[]> find)
    {
        if (!variances.TryGetValue((component, range), out var known)) variances[(component, range)] = known = find();
        return known;
    }
}
