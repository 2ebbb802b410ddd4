namespace StoreMap.Routing;

/// <summary>The best senses of groups in a given order, by dynamic programming along the order (Bellman 1957).</summary>
internal static class GroupSenses
{
    /// <summary>Chooses the senses.</summary>
    /// <param name="distances">Between points, row by row.</param>
    /// <param name="points">Number of points.</param>
    /// <param name="groups">The groups.</param>
    /// <param name="order">Their order.</param>
    /// <param name="closed">True when the walk returns.</param>
    /// <param name="back">The senses, changed only when others are shorter.</param>
    /// <returns>The change in length: below 0 when shorter senses were taken, else 0.</returns>
    public static double Choose(double[] distances, int points, TourGroup[] groups, int[] order, bool closed, bool[] back)
    {
        var now = Length(back);
        var chosen = new bool[order.Length];
        var came = new bool[order.Length, 2];
        var shortest = now - 1e-9;
        for (var start = 0; start < 2; start++)
        {
            if (start == 1 && !groups[order[0]].Reversible) continue;
            double[] best = [start == 0 ? 0 : double.PositiveInfinity, start == 1 ? 0 : double.PositiveInfinity];
            for (var i = 1; i < order.Length; i++)
            {
                double[] next = [double.PositiveInfinity, double.PositiveInfinity];
                for (var sense = 0; sense < (groups[order[i]].Reversible ? 2 : 1); sense++)
                {
                    var forwards = best[0] + Walk(order[i - 1], false, order[i], sense == 1);
                    var backwards = best[1] + Walk(order[i - 1], true, order[i], sense == 1);
                    (next[sense], came[i, sense]) = backwards < forwards ? (backwards, true) : (forwards, false);
                }

                best = next;
            }

            for (var sense = 0; sense < 2; sense++)
            {
                var total = best[sense] + (closed && order.Length > 1 ? Walk(order[^1], sense == 1, order[0], start == 1) : 0);
                if (total >= shortest) continue;
                shortest = total;
                var at = sense == 1;
                for (var i = order.Length - 1; i >= 0; i--)
                {
                    chosen[i] = at;
                    if (i > 0) at = came[i, at ? 1 : 0];
                }
            }
        }

        if (shortest >= now - 1e-9) return 0;
        chosen.CopyTo(back, 0);
        return shortest - now;

        double Walk(int a, bool aBack, int b, bool bBack) =>
            distances[((aBack ? groups[a].First : groups[a].Last) * points) + (bBack ? groups[b].Last : groups[b].First)];

        double Length(bool[] senses)
        {
            var sum = closed && order.Length > 1 ? Walk(order[^1], senses[^1], order[0], senses[0]) : 0;
            for (var i = 1; i < order.Length; i++) sum += Walk(order[i - 1], senses[i - 1], order[i], senses[i]);
            return sum;
        }
    }
}
