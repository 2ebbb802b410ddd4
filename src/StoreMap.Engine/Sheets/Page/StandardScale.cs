namespace StoreMap.Sheets;

/// <summary>A scale that a draughtsman would choose.</summary>
/// <param name="Denominator">n of 1:n.</param>
/// <param name="Text">As written in the title block.</param>
internal readonly record struct StandardScale(double Denominator, string Text)
{
    // ISO 5455: 1, 2 and 5 times powers of ten.
    private static readonly StandardScale[] Metric =
        [.. new[] { 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000 }.Select(n => new StandardScale(n, "1:" + Numbers.Whole(n)))];

    // Architect's scales down to 1/32", and the engineer's scales of whole feet to the inch between them.
    private static readonly StandardScale[] Customary =
    [
        new(12, "1\" = 1'-0\" (1:12)"), new(16, "3/4\" = 1'-0\" (1:16)"), new(24, "1/2\" = 1'-0\" (1:24)"),
        new(32, "3/8\" = 1'-0\" (1:32)"), new(48, "1/4\" = 1'-0\" (1:48)"), new(64, "3/16\" = 1'-0\" (1:64)"),
        new(96, "1/8\" = 1'-0\" (1:96)"), new(128, "3/32\" = 1'-0\" (1:128)"), new(192, "1/16\" = 1'-0\" (1:192)"),
        new(240, "1\" = 20' (1:240)"), new(360, "1\" = 30' (1:360)"), new(480, "1\" = 40' (1:480)"), new(600, "1\" = 50' (1:600)"),
        new(720, "1\" = 60' (1:720)"), new(1200, "1\" = 100' (1:1200)"), new(2400, "1\" = 200' (1:2400)"), new(4800, "1\" = 400' (1:4800)"),
        new(12000, "1\" = 1000' (1:12000)"),
    ];

    /// <summary>The standard scales of a unit's world, largest drawing first.</summary>
    public static IReadOnlyList<StandardScale> For(LengthUnit units) => units.IsCustomary() ? Customary : Metric;

    /// <summary>The standard scale nearest to 1:n, the larger drawing of two that are equally near.</summary>
    public static StandardScale At(LengthUnit units, double denominator) =>
        For(units).MinBy(s => Math.Abs(Math.Log(s.Denominator / denominator)));

    /// <summary>The scale that just fits a drawing which is true to no scale.</summary>
    public static StandardScale Free(double widthMetres, double heightMetres, double widthMillimetres, double heightMillimetres) =>
        new(1000 * Math.Max(widthMetres / widthMillimetres, heightMetres / heightMillimetres), "");

    /// <summary>The largest standard drawing of a rectangle that fits into a box.</summary>
    /// <param name="units">The user's unit.</param>
    /// <param name="widthMetres">Width of what is drawn, metres.</param>
    /// <param name="heightMetres">Height, metres.</param>
    /// <param name="widthMillimetres">Room across, millimetres.</param>
    /// <param name="heightMillimetres">Room down, millimetres.</param>
    /// <param name="smallestDenominator">No larger drawing than 1:this.</param>
    /// <returns>The scale; the smallest drawing of the series when nothing fits.</returns>
    public static StandardScale Fitting(
        LengthUnit units, double widthMetres, double heightMetres, double widthMillimetres, double heightMillimetres,
        double smallestDenominator = 1)
    {
        var scales = For(units);
        foreach (var scale in scales)
        {
            if (scale.Denominator < smallestDenominator) continue;
            var factor = 1000 / scale.Denominator;
            if (widthMetres * factor <= widthMillimetres + 1e-9 && heightMetres * factor <= heightMillimetres + 1e-9) return scale;
        }

        return scales[^1];
    }
}
