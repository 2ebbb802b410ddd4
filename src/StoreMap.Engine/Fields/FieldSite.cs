using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>One reading as the field takes it: a log level at a cell.</summary>
/// <param name="Cell">Grid cell.</param>
/// <param name="Level">g = ln(1 + net / scale) shown, or the level it bounds.</param>
/// <param name="Deviation">Standard deviation of that level by instrument and background.</param>
/// <param name="Share">n / (scale + n): how far turbulence, a share of the concentration, moves the level.</param>
/// <param name="Bound">Exact, below, or at least.</param>
internal readonly record struct FieldSite(int Cell, double Level, double Deviation, double Share, ReadingBound Bound)
{
    /// <summary>Variance of the level when turbulence scatters the concentration by this share.</summary>
    public double Variance(double turbulence) => (Deviation * Deviation) + (Share * Share * turbulence * turbulence);
}
