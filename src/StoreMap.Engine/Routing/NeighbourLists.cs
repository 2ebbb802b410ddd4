namespace StoreMap.Routing;

/// <summary>The nearest few of each stop, nearest first.</summary>
internal sealed class NeighbourLists
{
    private NeighbourLists(int[] stops, double[] distances, int width)
    {
        Stops = stops;
        Distances = distances;
        Width = width;
    }

    /// <summary>Neighbours of stop i at [i * Width, (i + 1) * Width).</summary>
    public int[] Stops { get; }

    /// <summary>Their distances.</summary>
    public double[] Distances { get; }

    /// <summary>Neighbours per stop.</summary>
    public int Width { get; }

    public static NeighbourLists Nearest(double[] distances, int count, int width)
    {
        width = Math.Min(width, count - 1);
        var stops = new int[count * width];
        var near = new double[count * width];
        for (var i = 0; i < count; i++)
        {
            var from = i * width;
            var held = 0;
            for (var j = 0; j < count; j++)
            {
                var d = distances[(i * count) + j];
                if (j == i || (held == width && d >= near[from + width - 1])) continue;
                var k = held < width ? held++ : width - 1;
                for (; k > 0 && near[from + k - 1] > d; k--)
                {
                    near[from + k] = near[from + k - 1];
                    stops[from + k] = stops[from + k - 1];
                }

                near[from + k] = d;
                stops[from + k] = j;
            }
        }

        return new NeighbourLists(stops, near, width);
    }
}
