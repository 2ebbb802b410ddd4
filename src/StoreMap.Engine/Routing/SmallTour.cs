namespace StoreMap.Routing;

/// <summary>The shortest closed tour over a few stops by dynamic programming over subsets (Bellman 1962; Held and Karp 1962).</summary>
internal static class SmallTour
{
    /// <summary>Most stops taken: 11 · 2^11 states are a blink.</summary>
    public const int MostStops = 12;

    /// <summary>The shortest order, starting with the last stop.</summary>
    /// <param name="distances">Symmetric, row by row.</param>
    /// <param name="count">1 to <see cref="MostStops"/>.</param>
    public static int[] Solve(double[] distances, int count)
    {
        var home = count - 1;
        var sets = 1 << home;
        var best = new double[sets * count];
        var from = new int[sets * count];
        Array.Fill(best, double.PositiveInfinity);
        for (var i = 0; i < home; i++) best[((1 << i) * count) + i] = distances[(home * count) + i];
        for (var set = 1; set < sets; set++)
        {
            for (var last = 0; last < home; last++)
            {
                var soFar = best[(set * count) + last];
                if (double.IsPositiveInfinity(soFar)) continue;
                for (var next = 0; next < home; next++)
                {
                    if ((set & (1 << next)) != 0) continue;
                    var at = ((set | (1 << next)) * count) + next;
                    var length = soFar + distances[(last * count) + next];
                    if (length >= best[at]) continue;
                    best[at] = length;
                    from[at] = last;
                }
            }
        }

        var order = new int[count];
        order[0] = home;
        var end = 0;
        var full = sets - 1;
        for (var i = 1; i < home; i++)
        {
            if (best[(full * count) + i] + distances[(home * count) + i] < best[(full * count) + end] + distances[(home * count) + end]) end = i;
        }

        for (var k = home; k > 0; k--)
        {
            order[k] = end;
            var previous = from[(full * count) + end];
            full &= ~(1 << end);
            end = previous;
        }

        return order;
    }
}
