namespace StoreMap.Routing;

/// <summary>Shortest 1-trees: a shortest tree over all stops but the last, and the last stop's two shortest edges.</summary>
internal sealed class OneTreeSearch(double[] distances, int count)
{
    private readonly double[] near = new double[count];
    private readonly int[] from = new int[count];
    private readonly bool[] inside = new bool[count];

    /// <summary>Edges at each stop in the last tree found.</summary>
    public int[] Degree { get; } = new int[count];

    /// <summary>Finds the shortest 1-tree with a penalty added at both ends of every edge.</summary>
    /// <returns>Its length, penalties included.</returns>
    public double Shortest(double[] penalty)
    {
        Array.Clear(Degree);
        Array.Clear(inside);
        var special = count - 1;
        Array.Fill(near, double.PositiveInfinity);
        var (length, at) = (0.0, 0);
        inside[0] = true;
        for (var k = 1; k < special; k++)
        {
            var row = at * count;
            var next = -1;
            for (var j = 0; j < special; j++)
            {
                if (inside[j]) continue;
                var d = distances[row + j] + penalty[at] + penalty[j];
                if (d < near[j]) (near[j], from[j]) = (d, at);
                if (next < 0 || near[j] < near[next]) next = j;
            }

            length += near[next];
            inside[next] = true;
            Degree[next]++;
            Degree[from[next]]++;
            at = next;
        }

        var (first, second) = (-1, -1);
        for (var j = 0; j < special; j++)
        {
            if (first < 0 || Edge(j) < Edge(first)) (second, first) = (first, j);
            else if (second < 0 || Edge(j) < Edge(second)) second = j;
        }

        Degree[special] = 2;
        Degree[first]++;
        Degree[second]++;
        return length + Edge(first) + Edge(second);

        double Edge(int j) => distances[(special * count) + j] + penalty[special] + penalty[j];
    }
}
