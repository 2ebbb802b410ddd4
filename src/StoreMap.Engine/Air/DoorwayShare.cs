namespace StoreMap.Air;

/// <summary>Openness of the faces in a doorway of a straight wall along the grid, such that as much air passes as through the doorway
/// itself.</summary>
/// <remarks>
/// Air crowds at a doorway's jambs, which square cells don't resolve: with plain shares of the width, a doorway of n faces passes as little
/// as one narrower by 0.7 faces would. Matching the lattice's half-plane Green's function to the flow through a slit (potential drop
/// (2/π) ln(4 r/w) on both sides together, from the conformal map of the slit) gives for a doorway within one face, with σ its share
/// of the width,
/// <code>1 / openness = ½ + (2/π) (ln(4/σ) − γ − 1.5 ln 2)</code>
/// and for the face at the end of a wider one exp(2.5 σ − 1.6), fitted to 6 % over σ in (0, 1] and any number of faces above two. So a
/// face may be open by more than 1. Where a doorway reaches the corner of its wall there is no jamb, and the share stands.
/// Lattice Green's function: Spitzer, Principles of Random Walk, 1976, P15.8 (asymptotics).
/// </remarks>
internal static class DoorwayShare
{
    private const double EulerGamma = 0.57721566490153286;

    /// <summary>Openness of the face between low and high along the wall's axis; 0 where no gap lies.</summary>
    /// <param name="barrier">A wall along the grid.</param>
    /// <param name="a">Its start along the axis.</param>
    /// <param name="b">Its end.</param>
    /// <param name="low">Lower end of the face.</param>
    /// <param name="high">Upper end of the face.</param>
    public static double Of(Barrier barrier, long a, long b, long low, long high)
    {
        var openness = 0.0;
        foreach (var gap in barrier.Gaps)
        {
            var (from, to) = (Along(a, b, gap.From), Along(a, b, gap.To));
            if (from > to) (from, to) = (to, from);
            var share = (double)(Math.Min(to, high) - Math.Max(from, low)) / (high - low);
            if (share <= 0) continue;
            // Jambs in this face: ends of the gap that are not ends of the wall.
            var jambs = (from >= low && from > Math.Min(a, b) ? 1 : 0) + (to <= high && to < Math.Max(a, b) ? 1 : 0);
            openness += gap.Openness * (jambs == 2 ? Alone(share) : jambs == 1 ? AtJamb(share) : share);
        }

        return openness;
    }

    private static double Alone(double share) => 1 / (0.5 + (2 / Math.PI * (Math.Log(4 / share) - EulerGamma - (1.5 * Math.Log(2)))));

    private static double AtJamb(double share) => Math.Exp((2.5 * share) - 1.6);

    private static long Along(long a, long b, double share) => 2 * (long)Math.Round((a + (share * (b - a))) / 2);
}
