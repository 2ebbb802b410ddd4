using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>A sheet with one plan, the notes beside it, and the pages of what finds no room: set out, centred and tiled in one way for
/// all such sheets. What it is about comes as passes.</summary>
internal sealed record PlanSheet
{
    /// <summary>The sheets it joins.</summary>
    public required SheetSet Set { get; init; }

    /// <summary>The store.</summary>
    public required Plan Plan { get; init; }

    /// <summary>What it is called.</summary>
    public required SheetHead Head { get; init; }

    /// <summary>What the pages behind it are called.</summary>
    public required SheetHead Behind { get; init; }

    /// <summary>For those who can't see it.</summary>
    public required string Description { get; init; }

    /// <summary>Area that the notes need, square millimetres.</summary>
    public double NotesArea { get; init; } = 17000;

    /// <summary>Drawn on the floor, under all else; null leaves the fixtures filled.</summary>
    public Action<PlanDrawing>? Field { get; init; }

    /// <summary>True to draw pipe runs and line drops.</summary>
    public bool Lines { get; init; } = true;

    /// <summary>What the sheet is about, over the plan.</summary>
    public required Action<PlanDrawing> Subject { get; init; }

    /// <summary>Fixtures whose tags find their places first.</summary>
    public required IReadOnlySet<string> Named { get; init; }

    /// <summary>The notes, given the symbols drawn.</summary>
    public required Func<IReadOnlyCollection<LegendSymbol>, IReadOnlyList<FlowItem>> Notes { get; init; }

    /// <summary>Text that belongs to the pages behind the plan, such as a table.</summary>
    public IReadOnlyList<FlowItem> Table { get; init; } = [];

    /// <summary>Columns of the pages behind.</summary>
    public int BehindColumns { get; init; } = 1;

    /// <summary>Draws the plan, its parts when asked for, and the pages behind.</summary>
    public void Draw()
    {
        var page = PlanPage.Choose(Plan, Set.PlanPaper, NotesArea);
        var notes = Notes(DrawPlan(SvgWriter.Scratch(), page).Used);
        // Where all notes stand beside the plan, the room under it goes to the plan.
        if (page.NotesBeside is { } beside && FlowColumns.Fill(SvgWriter.Scratch(), notes, [beside]).Count == 0) page = page.WithNotesBeside();
        var svg = Set.Begin(Head, page, Plan, Description);
        var drawn = DrawPlan(svg, page);
        var keys = drawn.Left.Select(l => l.Key).OfType<string>().ToList();
        var rest = PlanPages.FillNotes(svg, page, notes, Set.Words, Table.Count + keys.Count > 0);
        PlanPages.DrawBar(svg, Plan, page, Set.Words);
        if (Set.Context.TileScale is { } scale) PlanTiles.Draw(this, svg, page, scale);
        PlanPages.Behind(Set, Behind, Table, rest, keys, BehindColumns);
    }

    /// <summary>Draws plan and labels on a page.</summary>
    /// <returns>Labels without a place, and the symbols drawn.</returns>
    public (IReadOnlyList<PlanLabel> Left, IReadOnlyCollection<LegendSymbol> Used) DrawPlan(SvgWriter svg, PlanPage page, bool part = false)
    {
        var d = new PlanDrawing(svg, Plan, page.To, page.PlanBox, Set.Words, part);
        svg.Begin("plan", "plan", Plan.Name);
        if (part) svg.Begin(null, clip: svg.DefineClip("part", [page.PlanBox.Corners]));
        FloorPass.Draw(d);
        Field?.Invoke(d);
        ObstaclesPass.Draw(d);
        PitsPass.Draw(d);
        FixturesPass.Draw(d, filled: Field is null);
        WallsPass.Draw(d);
        if (Lines) PipesPass.Draw(d);
        EntrancesPass.Draw(d);
        EquipmentPass.Draw(d);
        if (Lines) DropsPass.Draw(d);
        Subject(d);
        FixturesPass.AddLabels(d, Named);
        RoomLabelsPass.AddLabels(d);
        var left = d.Labels.Place();
        if (part) svg.End();
        d.Labels.Draw(svg);
        svg.End();
        return (left, d.Used);
    }
}
