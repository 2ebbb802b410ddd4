namespace StoreMap.Sheets;

/// <summary>A sheet size. ISO sizes are trimmed sizes after ISO 5457; US sizes after ANSI/ASME Y14.1.</summary>
/// <param name="Name">Such as <c>A3</c> or <c>tabloid</c>.</param>
/// <param name="ShortMillimetres">Short side.</param>
/// <param name="LongMillimetres">Long side.</param>
public sealed record PaperSize(string Name, double ShortMillimetres, double LongMillimetres)
{
    /// <summary>210 x 297 mm.</summary>
    public static PaperSize A4 { get; } = new("A4", 210, 297);

    /// <summary>297 x 420 mm.</summary>
    public static PaperSize A3 { get; } = new("A3", 297, 420);

    /// <summary>420 x 594 mm.</summary>
    public static PaperSize A2 { get; } = new("A2", 420, 594);

    /// <summary>594 x 841 mm.</summary>
    public static PaperSize A1 { get; } = new("A1", 594, 841);

    /// <summary>8.5 x 11 in.</summary>
    public static PaperSize Letter { get; } = new("letter", 215.9, 279.4);

    /// <summary>11 x 17 in.</summary>
    public static PaperSize Tabloid { get; } = new("tabloid", 279.4, 431.8);

    /// <summary>17 x 22 in.</summary>
    public static PaperSize C { get; } = new("C", 431.8, 558.8);

    /// <summary>22 x 34 in.</summary>
    public static PaperSize D { get; } = new("D", 558.8, 863.6);

    /// <summary>All sizes, ISO from small to large, then US.</summary>
    public static IReadOnlyList<PaperSize> All { get; } = [A4, A3, A2, A1, Letter, Tabloid, C, D];

    /// <summary>The size with a name, in any case; null when unknown.</summary>
    public static PaperSize? Find(string? name) => All.FirstOrDefault(p => string.Equals(p.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The size for plans where the user names none: what an office printer takes.</summary>
    public static PaperSize ForPlans(LengthUnit units) => units.IsCustomary() ? Tabloid : A3;

    /// <summary>The size for tables and text beside plans of a size, where the user names none: the office paper of the same kind.</summary>
    public static PaperSize ForText(PaperSize plans) => plans == A4 || plans == A3 || plans == A2 || plans == A1 ? A4 : Letter;
}
