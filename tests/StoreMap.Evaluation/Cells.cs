using System.Globalization;

namespace StoreMap.Evaluation;

/// <summary>Numbers as table cells.</summary>
internal static class Cells
{
    public static string Feet(Estimate e) => e.Count == 0 ? "–" : $"{One(e.Value)} ({One(e.Low)}–{One(e.High)})";

    public static string Plain(Estimate e) => e.Count == 0 ? "–" : string.Create(CultureInfo.InvariantCulture, $"{e.Value:0.00} ({e.Low:0.00}–{e.High:0.00})");

    public static string Percent(Estimate e) =>
        e.Count == 0 ? "–" : string.Create(CultureInfo.InvariantCulture, $"{100 * e.Value:0} % ({100 * e.Low:0}–{100 * e.High:0})");

    public static string One(double value) => double.IsInfinity(value) ? "none" : value.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A verdict on the point estimate, and whether the bootstrap interval leaves it open.</summary>
    public static string Verdict(Estimate e, double low, double high)
    {
        if (e.Count == 0) return "no data";
        var open = (e.Low >= low && e.Low <= high) || (e.High >= low && e.High <= high) || (e.Low < low && e.High > high);
        if (e.Value >= low && e.Value <= high) return e.Low >= low && e.High <= high ? "pass" : "pass, not certain";
        return open ? "short, not certain" : "short";
    }

    public static string AtMost(Estimate e, double most) => Verdict(e, double.NegativeInfinity, most);

    public static string AtLeast(Estimate e, double least) => Verdict(e, least, double.PositiveInfinity);
}
