using StoreMap.Fields;

namespace StoreMap.Sheets;

/// <summary>Areas and lines of a gas field, traced once for all the drawings of it.</summary>
internal sealed class FieldContours
{
    private FieldContours(double cell, ConcentrationScale scale, IReadOnlyList<Isoband> areas, IReadOnlyList<Isoband> fading, IReadOnlyList<Isoline> lines)
    {
        CellMetres = cell;
        Scale = scale;
        Areas = areas;
        Fading = fading;
        Lines = lines;
    }

    /// <summary>Deviation over level at which the colour begins to fade, and at which it fades more.</summary>
    public static IReadOnlyList<double> FadingFrom { get; } = [0.6, 1.2];

    /// <summary>Side of the field's cells, metres.</summary>
    public double CellMetres { get; }

    /// <summary>Levels and colours.</summary>
    public ConcentrationScale Scale { get; }

    /// <summary>All floor that counts, then all at or above each level of the scale.</summary>
    public IReadOnlyList<Isoband> Areas { get; }

    /// <summary>Where the deviation is at or above each of <see cref="FadingFrom"/>; empty when uncertainty is not drawn.</summary>
    public IReadOnlyList<Isoband> Fading { get; }

    /// <summary>Contour lines, levels ascending.</summary>
    public IReadOnlyList<Isoline> Lines { get; }

    /// <summary>Traces a field.</summary>
    /// <param name="field">The field.</param>
    /// <param name="scale">Levels and colours.</param>
    /// <param name="uncertainty">False to leave out where it is uncertain.</param>
    public static FieldContours Of(GasField field, ConcentrationScale scale, bool uncertainty = true) => new(
        field.Grid.CellMetres, scale, Isobands.TraceAbove(field, [double.NegativeInfinity, .. scale.Levels]), uncertainty ? FadingOf(field, scale) : [],
        Isolines.Trace(field, scale.Levels));

    private static List<Isoband> FadingOf(GasField field, ConcentrationScale scale)
    {
        var ratio = new double[field.Grid.Count];
        var counts = new bool[field.Grid.Count];
        for (var i = 0; i < ratio.Length; i++)
        {
            ratio[i] = field.DeviationPpm[i] / Math.Max(field.MeanPpm[i], scale.Levels[0]);
            counts[i] = field.Evidence[i] && field.MedianPpm[i] >= scale.Levels[0];
        }

        return [.. FadingFrom.Select(from => Isobands.TraceCells(field.Grid, ratio, counts, [from])[0])];
    }
}
