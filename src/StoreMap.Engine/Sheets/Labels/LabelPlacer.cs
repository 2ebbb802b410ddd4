namespace StoreMap.Sheets;

/// <summary>Gives each label the first of its places that meets no other label, mark or leader; the most important label first.
/// What finds no place is handed back for the keyed table: nothing is dropped in silence.</summary>
internal sealed class LabelPlacer
{
    private readonly LabelSpace space;
    private readonly List<PlanLabel> waiting = [];
    private readonly List<(PlanLabel Label, LabelSpot Spot)> placed = [];

    private readonly SheetBox bounds;
    private readonly bool part;

    /// <summary>A placer for one drawing.</summary>
    /// <param name="bounds">Labels must lie inside it.</param>
    /// <param name="part">True when it shows only a part of the plan: what lies outside is labelled on the other parts.</param>
    public LabelPlacer(SheetBox bounds, bool part = false)
    {
        this.bounds = bounds;
        this.part = part;
        space = new LabelSpace(bounds);
    }

    /// <summary>What is taken.</summary>
    public LabelSpace Space => space;

    /// <summary>Asks for a place.</summary>
    public void Add(PlanLabel label)
    {
        if (!part || bounds.Contains(label.Anchor)) waiting.Add(label);
    }

    /// <summary>Places all waiting labels.</summary>
    /// <returns>Those without a place, in the order they were added.</returns>
    public IReadOnlyList<PlanLabel> Place()
    {
        var left = new List<(int Order, PlanLabel Label)>();
        foreach (var (order, label) in waiting.Index().OrderByDescending(w => w.Item.Priority).ThenBy(w => w.Index))
        {
            if (!TryPlace(label)) left.Add((order, label));
        }

        waiting.Clear();
        return [.. left.OrderBy(l => l.Order).Select(l => l.Label)];
    }

    /// <summary>Draws what was placed, layer by layer; leaders under all labels.</summary>
    public void Draw(SvgWriter svg)
    {
        if (placed.Any(p => p.Spot.Leader))
        {
            var leaders = placed.Where(p => p.Spot.Leader).Select(p => Leader(p.Label, p.Spot)).ToList();
            // Dark bands of a field would swallow a thin line.
            svg.Begin("leader-edges", "leader-edges");
            foreach (var leader in leaders) svg.Polyline(leader, Paint.Line(3 * SheetStyle.Hair, SheetStyle.Paper));
            svg.End();
            svg.Begin("leaders", "leaders");
            foreach (var leader in leaders) svg.Polyline(leader, Paint.Line(SheetStyle.Hair));
            svg.End();
        }

        foreach (var layer in placed.GroupBy(p => p.Label.Layer))
        {
            svg.Begin(layer.Key, "labels");
            foreach (var (label, spot) in layer) label.Draw(svg, spot);
            svg.End();
        }
    }

    private bool TryPlace(PlanLabel label)
    {
        // A place that spares walls and walk is better than an earlier one that covers them.
        LabelSpot? second = null;
        foreach (var spot in label.Spots)
        {
            var box = label.BoxAt(spot);
            if (!space.IsFree(box) || (spot.Leader && !LeaderIsFree(label, spot))) continue;
            if (space.Spares(box))
            {
                Take(label, spot, box);
                return true;
            }

            second ??= spot;
        }

        if (second is { } taken) Take(label, taken, label.BoxAt(taken));
        return second is not null;
    }

    private void Take(PlanLabel label, LabelSpot spot, SheetBox box)
    {
        space.Block(box);
        if (spot.Leader)
        {
            space.BlockLeader(Leader(label, spot)[^2], label.Anchor);
            if (ReferenceLine(label, spot) is { } line) space.Block(line);
        }

        placed.Add((label, spot));
    }

    private bool LeaderIsFree(PlanLabel label, LabelSpot spot) =>
        space.LeaderIsFree(Leader(label, spot)[^2], label.Anchor) && (ReferenceLine(label, spot) is not { } line || space.IsFree(line));

    // A line that ends beside another number would be its minus.
    private static SheetBox? ReferenceLine(PlanLabel label, LabelSpot spot)
    {
        const double Clear = 0.9, Half = SheetStyle.Hair / 2;
        if (Leader(label, spot).Length < 3) return null;
        var box = label.BoxAt(spot);
        return new(box.X - Clear, box.Bottom - Half, box.Width + (2 * Clear), 2 * Half);
    }

    /// <summary>A leader from its label to the anchor. To a label without a border at one side of the anchor it runs along a reference line
    /// under the text (ISO 128-2): a level stroke before a number would be read as a minus.</summary>
    private static SheetPoint[] Leader(PlanLabel label, LabelSpot spot)
    {
        var box = label.BoxAt(spot);
        var anchor = label.Anchor;
        var near = new SheetPoint(Math.Clamp(anchor.X, box.X, box.Right), Math.Clamp(anchor.Y, box.Y, box.Bottom));
        if (label.Border is not null || (anchor.X > box.X && anchor.X < box.Right)) return [near, anchor];
        return [new(anchor.X <= box.X ? box.Right : box.X, box.Bottom), new(near.X, box.Bottom), anchor];
    }
}
