namespace StoreMap.Zones;

/// <summary>Makes of a line-up's evidence for one and for two leaks the leaks to report.</summary>
internal static class LeakSplit
{
    private const double LeastSecond = 0.03;

    /// <summary>One or two leaks with their places and probabilities.</summary>
    /// <param name="study">The line-up.</param>
    /// <param name="one">One leak.</param>
    /// <param name="two">Two leaks; null when they cannot be.</param>
    /// <param name="probability">Probability of at least one.</param>
    public static IReadOnlyList<(OneLeak Leak, double[] Place, double Probability, PartnerLeak? Partner)> Of(
        LineUpStudy study, OneLeak one, TwoLeaks? two, double probability)
    {
        var both = two is null ? 0 : 1 / (1 + Math.Exp(one.LogTotal - two.LogTotal));
        if (two is null || probability * both < LeastSecond) return [(one, one.Place, probability, null)];

        // With one leak only, it is the one of the two that lies where the one-leak posterior is.
        var (overlapLeft, overlapRight) = (0.0, 0.0);
        for (var c = 0; c < one.Place.Length; c++)
        {
            overlapLeft += Math.Min(one.Place[c], two.Left[c]);
            overlapRight += Math.Min(one.Place[c], two.Right[c]);
        }

        var stronger = overlapLeft >= overlapRight;
        return
        [
            Part(two.Left, two.RightBest, stronger),
            Part(two.Right, two.LeftBest, !stronger),
        ];

        (OneLeak, double[], double, PartnerLeak?) Part(double[] place, PartnerLeak partner, bool alsoAlone)
        {
            var alone = alsoAlone ? 1 - both : 0;
            var mixed = place.Select((p, c) => ((both * p) + (alone * one.Place[c])) / (both + alone)).ToArray();
            // The curve and strength follow the likelier of the two readings of the evidence.
            var pair = both >= alone;
            return (pair ? study.FitFine(partner.Ppm) : one, mixed, probability * (both + alone), pair ? partner : null);
        }
    }
}
