using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>One plan being drawn on one sheet: what every pass needs.</summary>
internal sealed class PlanDrawing
{
    private readonly SortedSet<LegendSymbol> used = [];

    /// <summary>Begins a drawing.</summary>
    /// <param name="svg">Where to draw.</param>
    /// <param name="plan">The store.</param>
    /// <param name="to">From plan metres to sheet millimetres.</param>
    /// <param name="box">The part of the sheet that the drawing and its labels may use.</param>
    /// <param name="words">Language.</param>
    /// <param name="part">True when the box shows only a part of the plan.</param>
    public PlanDrawing(SvgWriter svg, Plan plan, PlanToSheet to, SheetBox box, Words words, bool part = false)
    {
        Svg = svg;
        Plan = plan;
        To = to;
        Box = box;
        Words = words;
        Labels = new LabelPlacer(box, part);
    }

    public SvgWriter Svg { get; }

    public Plan Plan { get; }

    public PlanToSheet To { get; }

    public SheetBox Box { get; }

    public Words Words { get; }

    public LabelPlacer Labels { get; }

    /// <summary>Symbols drawn so far, for the legend.</summary>
    public IReadOnlyCollection<LegendSymbol> Used => used;

    /// <summary>Notes that a symbol stands on the sheet and must be explained.</summary>
    public void Uses(LegendSymbol symbol) => used.Add(symbol);

    /// <summary>Sheet points of plan points.</summary>
    public IReadOnlyList<SheetPoint> Points(IEnumerable<PlanPoint> points) => [.. points.Select(To.Point)];
}

/// <summary>What a legend can explain, in the order in which it does.</summary>
internal enum LegendSymbol
{
    Unsurveyed,
    Uncertain,
    ReadingHit,
    ReadingSeen,
    ReadingQuiet,
    ReadingOver,
    ReadingStill,
    ReadingTwo,
    Contour,
    Zone,
    ElsewhereMark,
    ProbePoint,
    Walk,
    Tag,
    Front,
    Doors,
    WalkIn,
    SelfContained,
    Drop,
    Pit,
    Pipe,
    Equipment,
    Entrance,
    Obstacle,
}
