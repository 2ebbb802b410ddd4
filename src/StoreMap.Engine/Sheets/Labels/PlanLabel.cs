namespace StoreMap.Sheets;

/// <summary>A place a label may take.</summary>
/// <param name="Middle">Middle of its box.</param>
/// <param name="QuarterTurns">Quarter turns anticlockwise of the text.</param>
/// <param name="Leader">True when a leader must lead to the anchor.</param>
internal readonly record struct LabelSpot(SheetPoint Middle, int QuarterTurns = 0, bool Leader = false);

/// <summary>A label that wants a place on a plan.</summary>
internal sealed record PlanLabel
{
    private const double SidePad = 0.5;
    private const double TopPad = 0.5;
    private const double BottomPad = 0.8;
    private double? width;

    /// <summary>Lines of text.</summary>
    public required IReadOnlyList<string> Lines
    {
        get;
        init
        {
            field = value;
            width = null;
        }
    }

    /// <summary>How it is set.</summary>
    public required TextStyle Style
    {
        get;
        init
        {
            field = value;
            width = null;
        }
    }

    /// <summary>What it belongs to.</summary>
    public required SheetPoint Anchor { get; init; }

    /// <summary>Places in order of preference.</summary>
    public IReadOnlyList<LabelSpot> Spots { get; init; } = [];

    /// <summary>Higher goes first.</summary>
    public required double Priority { get; init; }

    /// <summary>Group in which it is drawn, such as <c>labels-fixtures</c>.</summary>
    public required string Layer { get; init; }

    /// <summary>Colour behind the text; null for none.</summary>
    public string? Ground { get; init; } = SheetStyle.Paper;

    /// <summary>Line round the label; null for none.</summary>
    public string? Border { get; init; }

    /// <summary>True for a label with round ends, a disc where the text is short.</summary>
    public bool Round { get; init; }

    /// <summary>What the keyed table says when there is no place; null when the sheet lists it anyway.</summary>
    public string? Key { get; init; }

    /// <summary>Width of the box of an unturned label.</summary>
    public double Width => width ??= Math.Max(Round ? Height : 0, Lines.Max(Style.WidthOf) + (2 * SidePad));

    /// <summary>Height of the box of an unturned label.</summary>
    public double Height => Style.HeightMillimetres + ((Lines.Count - 1) * LineStep) + TopPad + BottomPad;

    private double LineStep => Style.HeightMillimetres * 1.5;

    /// <summary>The box at a spot.</summary>
    public SheetBox BoxAt(LabelSpot spot)
    {
        var (w, h) = spot.QuarterTurns % 2 == 0 ? (Width, Height) : (Height, Width);
        return new SheetBox(spot.Middle.X - (w / 2), spot.Middle.Y - (h / 2), w, h);
    }

    /// <summary>Draws the label at a spot.</summary>
    public void Draw(SvgWriter svg, LabelSpot spot)
    {
        var box = BoxAt(spot);
        if (Ground is not null || Border is not null)
        {
            svg.Rectangle(box, new Paint(Ground, Border, Border is null ? 0 : SheetStyle.Hair, Opacity: Border is null ? 0.85 : 1), Round ? box.Height / 2 : 0.4);
        }

        for (var i = 0; i < Lines.Count; i++)
        {
            // Base line measured from the middle, along the text's own downward direction.
            var down = TopPad + Style.HeightMillimetres + (i * LineStep) - (Height / 2);
            var at = spot.QuarterTurns switch
            {
                1 => new SheetPoint(spot.Middle.X + down, spot.Middle.Y),
                3 => new SheetPoint(spot.Middle.X - down, spot.Middle.Y),
                _ => new SheetPoint(spot.Middle.X, spot.Middle.Y + down),
            };
            svg.Text(at, Lines[i], Style, TextAnchor.Middle, spot.QuarterTurns);
        }
    }
}
