namespace StoreMap.Zones;

/// <summary>One source above two line-ups that lets its gas into both, as a line over cases back to back or across a narrow aisle does.</summary>
internal static class SharedAbove
{
    /// <summary>Chance that a source above one line-up feeds a second beside it (judgement).</summary>
    private const double FeedsBoth = 0.2;

    /// <summary>Deviation of the plan distance between where its gas enters the two, metres: the round it sinks over and a case's depth.</summary>
    private const double ApartMetres = 1.8;

    private const double LeastShare = 1e-3;

    /// <summary>How many times likelier both line-ups' gas from above is by one source than by two of their own.</summary>
    /// <param name="first">A line-up.</param>
    /// <param name="firstPlace">Probability per cell that a source is above it.</param>
    /// <param name="second">Another.</param>
    /// <param name="secondPlace">The same for it.</param>
    public static double Odds(LineUpStudy first, double[] firstPlace, LineUpStudy second, double[] secondPlace)
    {
        var sum = 0.0;
        for (var c = 0; c < firstPlace.Length; c++)
        {
            if (firstPlace[c] < LeastShare) continue;
            var at = first.Axis.PointAt(first.Axis.Centres[c]);
            for (var k = 0; k < secondPlace.Length; k++)
            {
                if (secondPlace[k] < LeastShare) continue;
                var d = at.DistanceTo(second.Axis.PointAt(second.Axis.Centres[k])) / ApartMetres;
                var entering = second.Axis.Widths[k] * Math.Exp(-0.5 * d * d) / (ApartMetres * Math.Sqrt(2 * Math.PI));
                sum += firstPlace[c] * secondPlace[k] * entering / second.ExpectedAbove[k];
            }
        }

        return FeedsBoth * sum;
    }
}
