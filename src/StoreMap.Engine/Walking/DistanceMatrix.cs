using StoreMap.Plans;

namespace StoreMap.Walking;

/// <summary>Walking distances between points: symmetric, zero on the diagonal.</summary>
public sealed class DistanceMatrix
{
    private readonly WalkingPaths paths;
    private readonly double[] lengths;

    internal DistanceMatrix(WalkingPaths paths, IReadOnlyList<Standing> standings, double[] lengths, IReadOnlyList<Problem> problems)
    {
        this.paths = paths;
        this.lengths = lengths;
        Standings = standings;
        Problems = problems;
    }

    /// <summary>Number of points.</summary>
    public int Count => Standings.Count;

    /// <summary>Where the feet stand for each point, in the order of the points.</summary>
    public IReadOnlyList<Standing> Standings { get; }

    /// <summary>A warning for each point moved to free floor, an error for each that can't be reached from the others.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    /// <summary>Metres to walk from point <paramref name="i"/> to point <paramref name="j"/>; infinity when there is no way.</summary>
    public double this[int i, int j] => lengths[(i * Count) + j];

    /// <summary>One row: metres from point <paramref name="i"/> to every point.</summary>
    public ReadOnlySpan<double> Row(int i) => lengths.AsSpan(i * Count, Count);

    /// <summary>The walk between two points of the matrix; null when there is no way.</summary>
    public WalkPath? Path(int i, int j) => paths.Path(Standings[i].At, Standings[j].At);
}
