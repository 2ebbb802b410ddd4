namespace StoreMap.Sheets;

/// <summary>How a shape is filled and outlined. Widths in millimetres.</summary>
/// <param name="Fill">A colour or a pattern reference; null for none.</param>
/// <param name="Stroke">A colour; null for none.</param>
/// <param name="Width">Line width.</param>
/// <param name="Dash">Dash lengths such as <c>3 1</c>; null for a continuous line.</param>
/// <param name="Opacity">Opacity of the fill, [0, 1].</param>
internal readonly record struct Paint(string? Fill = null, string? Stroke = null, double Width = 0, string? Dash = null, double Opacity = 1)
{
    /// <summary>A line without a fill.</summary>
    public static Paint Line(double width, string colour = SheetStyle.Ink, string? dash = null) => new(null, colour, width, dash);

    /// <summary>A fill without a line.</summary>
    public static Paint Solid(string colour, double opacity = 1) => new(colour, Opacity: opacity);

    /// <summary>The SVG attributes, each with a leading space.</summary>
    public string Attributes
    {
        get
        {
            var text = $" fill=\"{Fill ?? "none"}\"";
            if (Fill is not null && Opacity < 1) text += $" fill-opacity=\"{Numbers.Coordinate(Opacity)}\"";
            if (Stroke is null || Width <= 0) return text;
            text += $" stroke=\"{Stroke}\" stroke-width=\"{Numbers.Coordinate(Width)}\"";
            return Dash is null ? text : text + $" stroke-dasharray=\"{Dash}\"";
        }
    }
}

/// <summary>Which part of a text its point is.</summary>
internal enum TextAnchor
{
    /// <summary>The left end of the base line.</summary>
    Start,

    /// <summary>The middle of the base line.</summary>
    Middle,

    /// <summary>The right end of the base line.</summary>
    End,
}
