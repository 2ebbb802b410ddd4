namespace StoreMap.Air;

/// <summary>The operators of one body of air: what spreads and what is lost, as sparse symmetric positive definite matrices.</summary>
/// <remarks>
/// Unknowns are the cells of the body (local numbering, ascending grid index). With cell side h, a loss k and a diffusivity D per cell,
/// the finite-volume operator is
/// <code>(M c)_i = h² k_i c_i + Σ_faces w_ij (c_i − c_j),   w_ij = openness_ij · 2 D_i D_j / (D_i + D_j)</code>
/// that is h² (k c − ∇·D∇c) with no flow through closed faces. It serves twice:
/// <list type="bullet">
/// <item>steady dispersion, in 1/s and m²/s: M c = q gives the concentration c (volume share) for sources q in m³/s per metre of air
/// height; column a of M⁻¹ is the response of a unit source in cell a, M⁻¹ is symmetric (reciprocity), and Σ h² k c = Σ q;</item>
/// <item>the Gaussian field: K = M with k = 1, D = r²/8 and Q = K C̃⁻¹ K, C̃_i = (π/2) r_i² h²: the precision of a Matérn field with
/// ν = 1, unit variance and range r (correlation 0.14 at distance r) where no wall is near (Lindgren, Rue and Lindström, J. R. Stat.
/// Soc. B 73, 2011; with barriers: Bakka et al., Spatial Statistics 29, 2019).</item>
/// </list>
/// </remarks>
internal sealed class GridOperator
{
    private readonly AirGrid grid;
    private readonly int[] local;

    private GridOperator(AirGrid grid, int[] cells, int[] local) => (this.grid, Cells, this.local) = (grid, cells, local);

    /// <summary>Grid cell of each unknown, ascending.</summary>
    public int[] Cells { get; }

    /// <summary>Number of unknowns.</summary>
    public int Count => Cells.Length;

    /// <summary>Takes one connected body of air.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="component">Number of the body, in [0, grid.ComponentCount).</param>
    public static GridOperator Of(AirGrid grid, int component)
    {
        var local = new int[grid.Count];
        var cells = new List<int>();
        for (var cell = 0; cell < grid.Count; cell++)
        {
            local[cell] = -1;
            if (grid.ComponentOf[cell] != component) continue;
            local[cell] = cells.Count;
            cells.Add(cell);
        }

        return new GridOperator(grid, [.. cells], local);
    }

    /// <summary>The unknown of a grid cell; -1 when the cell is not of this body.</summary>
    public int LocalOf(int cell) => cell < 0 ? -1 : local[cell];

    /// <summary>One value per unknown from one per region of the grid.</summary>
    public double[] PerCell(IReadOnlyList<double> perRegion) => [.. Cells.Select(c => perRegion[grid.RegionOf[c]])];

    /// <summary>Assembles M.</summary>
    /// <param name="loss">k per unknown, 1/s, at least 0 and somewhere positive (else M is singular).</param>
    /// <param name="diffusivity">D per unknown, m²/s, positive.</param>
    public SymmetricMatrix Dispersion(ReadOnlySpan<double> loss, ReadOnlySpan<double> diffusivity)
    {
        var area = grid.CellMetres * grid.CellMetres;
        var starts = new int[Count + 1];
        var rows = new int[3 * Count];
        var values = new double[3 * Count];
        var off = new double[Count];
        var filled = 0;
        for (var i = 0; i < Count; i++)
        {
            starts[i] = filled;
            rows[filled++] = i;
            for (var side = 0; side < 2; side++)
            {
                var openness = side == 0 ? grid.Right[Cells[i]] : grid.Up[Cells[i]];
                if (openness == 0) continue;
                var j = local[Cells[i] + (side == 0 ? 1 : grid.Columns)];
                var w = openness * 2 * diffusivity[i] * diffusivity[j] / (diffusivity[i] + diffusivity[j]);
                rows[filled] = j;
                values[filled++] = -w;
                off[i] += w;
                off[j] += w;
            }
        }

        starts[Count] = filled;
        for (var i = 0; i < Count; i++) values[starts[i]] = (area * loss[i]) + off[i];
        return new SymmetricMatrix(starts, rows[..filled], values[..filled]);
    }

    /// <summary>K of the Gaussian field: M with loss 1 and diffusivity r²/8.</summary>
    /// <param name="range">Range r per unknown, metres: where the correlation has fallen to 0.14.</param>
    public SymmetricMatrix Root(ReadOnlySpan<double> range)
    {
        var (loss, diffusivity) = (new double[Count], new double[Count]);
        for (var i = 0; i < Count; i++) (loss[i], diffusivity[i]) = (1, range[i] * range[i] / 8);
        return Dispersion(loss, diffusivity);
    }

    /// <summary>C̃ of the Gaussian field: (π/2) r² h² per unknown.</summary>
    /// <param name="range">Range r per unknown, metres.</param>
    public double[] Weights(ReadOnlySpan<double> range)
    {
        var weights = new double[Count];
        var area = grid.CellMetres * grid.CellMetres;
        for (var i = 0; i < Count; i++) weights[i] = Math.PI / 2 * range[i] * range[i] * area;
        return weights;
    }

    /// <summary>Precision Q = K C̃⁻¹ K of the Gaussian field with unit variance away from walls.</summary>
    /// <param name="range">Range r per unknown, metres.</param>
    public SymmetricMatrix Precision(ReadOnlySpan<double> range) => SandwichProduct.Of(Root(range), Weights(range));

    /// <summary>A fill-reducing order for matrices of this body.</summary>
    /// <param name="matrix">A matrix assembled here; its pattern counts.</param>
    /// <param name="last">Unknowns to be eliminated last, in this order.</param>
    public int[] OrderFor(SymmetricMatrix matrix, ReadOnlySpan<int> last = default)
    {
        var (columns, rows) = (new int[Count], new int[Count]);
        for (var i = 0; i < Count; i++) (rows[i], columns[i]) = Math.DivRem(Cells[i], grid.Columns);
        return NestedDissection.Order(columns, rows, matrix, last);
    }
}
