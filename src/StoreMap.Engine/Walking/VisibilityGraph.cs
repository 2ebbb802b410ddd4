using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>The corners round which a shortest path can bend, and the straight walks between them that a taut string can take.</summary>
/// <remarks>Reduced visibility graph: an edge is kept when it is tangent at both ends and nothing blocks it. Source: de Berg et al.,
/// Computational Geometry, 3rd ed., chapter 15; tangent pruning after Rohnert 1986.</remarks>
internal sealed class VisibilityGraph
{
    private VisibilityGraph(EdgeGrid grid, double[] x, double[] y, Sector[] around, int[] region)
    {
        Grid = grid;
        X = x;
        Y = y;
        Around = around;
        Region = region;
    }

    public EdgeGrid Grid { get; }

    public double[] X { get; }

    public double[] Y { get; }

    public Sector[] Around { get; }

    public int[] Region { get; }

    public int NodeCount => X.Length;

    /// <summary>First entry of each node in <see cref="Neighbour"/> and <see cref="Length"/>, and the number of entries at the end.</summary>
    public int[] Start { get; private set; } = [];

    public int[] Neighbour { get; private set; } = [];

    /// <summary>Lengths in metres.</summary>
    public double[] Length { get; private set; } = [];

    public static VisibilityGraph Of(EdgeGrid grid, int threads, CancellationToken cancellation)
    {
        var b = grid.Boundary;
        var (x, y, around, region) = (new List<double>(), new List<double>(), new List<Sector>(), new List<int>());
        for (var c = 0; c < b.CornerCount; c++)
        {
            for (var s = b.SectorStart[c]; s < b.SectorStart[c + 1]; s++)
            {
                if (!b.Sectors[s].IsReflex) continue;
                x.Add(b.X[c]);
                y.Add(b.Y[c]);
                around.Add(b.Sectors[s]);
                region.Add(b.SectorRegion[s]);
            }
        }

        var graph = new VisibilityGraph(grid, [.. x], [.. y], [.. around], [.. region]);
        graph.Connect(threads, cancellation);
        return graph;
    }

    /// <summary>Length of the straight walk between two places in metres.</summary>
    public static double LengthOf(double ux, double uy) => Math.Sqrt((ux * ux) + (uy * uy)) / Lattice.PerMetre;

    private void Connect(int threads, CancellationToken cancellation)
    {
        var n = NodeCount;
        var later = new int[n][];
        RowWork.Run(n, () => (Sight: new SightLine(Grid), Found: new List<int>()), (i, own) =>
        {
            own.Found.Clear();
            for (var j = i + 1; j < n; j++)
            {
                if (Sees(i, j, own.Sight)) own.Found.Add(j);
            }

            later[i] = [.. own.Found];
        }, threads, cancellation);

        Start = new int[n + 1];
        for (var i = 0; i < n; i++)
        {
            Start[i + 1] += later[i].Length;
            foreach (var j in later[i]) Start[j + 1]++;
        }

        for (var i = 0; i < n; i++) Start[i + 1] += Start[i];
        Neighbour = new int[Start[n]];
        Length = new double[Start[n]];
        var next = Start.ToArray();
        for (var i = 0; i < n; i++)
        {
            foreach (var j in later[i])
            {
                var length = LengthOf(X[j] - X[i], Y[j] - Y[i]);
                (Neighbour[next[i]], Length[next[i]++]) = (j, length);
                (Neighbour[next[j]], Length[next[j]++]) = (i, length);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool Sees(int i, int j, SightLine sight)
    {
        var (ux, uy) = (X[j] - X[i], Y[j] - Y[i]);
        return Region[i] == Region[j] && (ux != 0 || uy != 0)
            && Around[i].IsTangent(ux, uy) && Around[j].IsTangent(ux, uy)
            && Sector.SameSide(Around[i], Around[j], ux, uy)
            && !sight.Blocked(X[i], Y[i], X[j], Y[j]);
    }
}
