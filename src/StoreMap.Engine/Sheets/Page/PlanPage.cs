using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>A sheet set out for one plan: where the plan, the notes beside it and the title block go, and at which scale.</summary>
internal sealed record PlanPage
{
    /// <summary>Least width of a column of notes.</summary>
    public const double LeastColumn = 96;

    /// <summary>Room round the plan for entrance arrows and labels.</summary>
    private const double PlanMargin = 5.5;

    /// <summary>Height kept under the plan for scale bar and north arrow.</summary>
    private const double BarStrip = 10;

    /// <summary>A lower strip is not worth a column of notes.</summary>
    private const double LeastStrip = 14;

    private const double Gap = 3;

    /// <summary>Frame of the sheet.</summary>
    public required PageFrame Frame { get; init; }

    /// <summary>The part for the plan and its labels.</summary>
    public required SheetBox PlanBox { get; init; }

    /// <summary>Columns for notes, in reading order.</summary>
    public required IReadOnlyList<SheetBox> Notes { get; init; }

    /// <summary>The title block.</summary>
    public required SheetBox TitleBox { get; init; }

    /// <summary>Where the scale bar begins.</summary>
    public required SheetPoint BarAt { get; init; }

    /// <summary>The scale.</summary>
    public required StandardScale Scale { get; init; }

    /// <summary>From plan to sheet.</summary>
    public required PlanToSheet To { get; init; }

    /// <summary>Chooses orientation, arrangement, turn and scale so that the plan comes out largest.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paper">The sheet size.</param>
    /// <param name="notesArea">Area that the notes need, square millimetres.</param>
    public static PlanPage Choose(Plan plan, PaperSize paper, double notesArea)
    {
        var bounds = Bounds(plan);
        PlanPage? best = null;
        foreach (var landscape in paper.LongMillimetres > 300 ? new[] { true, false } : [false])
        {
            var frame = new PageFrame(paper, landscape);
            foreach (var turns in Turns(plan))
            {
                foreach (var candidate in new[] { Beside(plan, frame, bounds, turns, notesArea), Below(plan, frame, bounds, turns, notesArea) })
                {
                    if (candidate is not null && (best is null || candidate.Scale.Denominator < best.Scale.Denominator)) best = candidate;
                }
            }
        }

        return best!;
    }

    /// <summary>The column beside the plan, when notes may stand under the plan too; null otherwise.</summary>
    public SheetBox? NotesBeside { get; init; }

    /// <summary>The same page with all notes beside the plan, which then takes the whole height.</summary>
    public PlanPage WithNotesBeside()
    {
        var box = PlanBox with { Height = Frame.Drawing.Bottom - BarStrip - PlanBox.Y };
        return this with { Notes = [NotesBeside!.Value], PlanBox = box, To = To.Moved(box.Middle - PlanBox.Middle), BarAt = BarAt with { Y = box.Bottom + 1 } };
    }

    private static StandardScale ScaleFor(Plan plan, double w, double h, double roomX, double roomY) =>
        plan.Schematic ? StandardScale.Free(w, h, roomX, roomY) : StandardScale.Fitting(plan.Units, w, h, roomX, roomY);

    private static (PlanPoint Low, PlanPoint High) Bounds(Plan plan)
    {
        var points = plan.Outline.Concat(plan.Equipment.Select(e => e.At)).ToList();
        return (new(points.Min(p => p.X), points.Min(p => p.Y)), new(points.Max(p => p.X), points.Max(p => p.Y)));
    }

    /// <summary>Turns in order of preference: as drawn, unless north is known and the half turn brings more entrances to the foot of the page.</summary>
    private static int[] Turns(Plan plan)
    {
        var (low, high) = Bounds(plan);
        bool Better(Func<PlanPoint, double> up, double min, double max) =>
            plan.NorthDegrees is not null && plan.Entrances.Count > 0 && plan.Entrances.Average(e => up(e.At)) > (min + max) / 2;
        return [Better(p => p.Y, low.Y, high.Y) ? 2 : 0, Better(p => p.X, low.X, high.X) ? 3 : 1];
    }

    private static (double Width, double Height) Size((PlanPoint Low, PlanPoint High) b, int turns)
    {
        double w = b.High.X - b.Low.X, h = b.High.Y - b.Low.Y;
        return turns % 2 == 0 ? (w, h) : (h, w);
    }

    /// <summary>Notes in a column at the right, the title block at its foot.</summary>
    private static PlanPage? Beside(Plan plan, PageFrame frame, (PlanPoint Low, PlanPoint High) bounds, int turns, double notesArea)
    {
        var (w, h) = Size(bounds, turns);
        var d = frame.Drawing;
        var column = Math.Max(LeastColumn, notesArea / (d.Height - TitleBlock.HeightAt(LeastColumn) - (2 * Gap)));
        if (d.Width - column < 60) return null;
        double roomX = d.Width - column - (2 * PlanMargin), roomY = d.Height - BarStrip - (2 * PlanMargin);
        var scale = ScaleFor(plan, w, h, roomX, roomY);
        var planWidth = (w * 1000 / scale.Denominator) + (2 * PlanMargin);
        // What the plan leaves goes to the notes, up to a width that is still good to read.
        column = Math.Clamp(d.Width - planWidth, column, 150);
        var title = frame.TitleBlockBox(column);
        var left = d.Width - column;
        List<SheetBox> notes = [new(d.X + left + Gap, d.Y + Gap, column - Gap - PageFrame.MarkRoom, title.Y - d.Y - (2 * Gap))];
        // Height that the plan leaves goes to columns under it; the first begins below the scale bar.
        var planHeight = Math.Min((h * 1000 / scale.Denominator) + (2 * PlanMargin), d.Height - BarStrip);
        var under = d.Height - planHeight - Gap;
        if (under >= LeastStrip)
        {
            var count = Math.Max(1, (int)Math.Floor(left / LeastColumn));
            var width = (left - Gap) / count;
            for (var i = 0; i < count; i++)
            {
                var height = i == 0 ? under - BarStrip - 3 : under;
                if (height >= LeastStrip) notes.Add(new(d.X + Gap + (i * width), d.Bottom - Gap - height + 1.5, width - Gap, height - 1.5));
            }
        }
        else
        {
            planHeight = d.Height - BarStrip;
        }

        return Made(frame, new SheetBox(d.X, d.Y, left, planHeight), notes, title, scale, turns, bounds) with { NotesBeside = notes[0] };
    }

    /// <summary>Notes in columns under the plan, the title block at the right of them.</summary>
    private static PlanPage? Below(Plan plan, PageFrame frame, (PlanPoint Low, PlanPoint High) bounds, int turns, double notesArea)
    {
        var (w, h) = Size(bounds, turns);
        var d = frame.Drawing;
        var title = frame.TitleBlockBox();
        var count = Math.Max(1, (int)Math.Floor((d.Width + Gap) / (LeastColumn * 0.9)));
        var above = Math.Max(0, (notesArea / d.Width) + (title.Height * title.Width / d.Width));
        var strip = Math.Max(title.Height, above);
        double roomX = d.Width - (2 * PlanMargin), roomY = d.Height - strip - BarStrip - (2 * PlanMargin);
        if (roomY < 40) return null;
        var scale = ScaleFor(plan, w, h, roomX, roomY);
        var planHeight = (h * 1000 / scale.Denominator) + (2 * PlanMargin);
        strip = Math.Max(strip, Math.Min(d.Height - planHeight - BarStrip, strip * 1.5));
        var top = d.Bottom - strip;
        var columnWidth = (d.Width - (Gap * (count + 1))) / count;
        var notes = Enumerable.Range(0, count).Select(i =>
        {
            var x = d.X + Gap + (i * (columnWidth + Gap));
            var foot = x + columnWidth > title.X ? title.Y - Gap : d.Bottom - Gap;
            return new SheetBox(x, top + Gap, columnWidth, foot - top - Gap);
        }).Where(n => n.Height > 12).ToList();
        var planBox = new SheetBox(d.X, d.Y, d.Width, d.Height - strip - BarStrip);
        return Made(frame, planBox, notes, title, scale, turns, bounds);
    }

    private static PlanPage Made(
        PageFrame frame, SheetBox planBox, IReadOnlyList<SheetBox> notes, SheetBox title, StandardScale scale, int turns,
        (PlanPoint Low, PlanPoint High) bounds) => new()
    {
        Frame = frame, PlanBox = planBox.Inset(0.6), Notes = notes, TitleBox = title, Scale = scale,
        BarAt = new SheetPoint(planBox.X + PlanMargin, planBox.Bottom + 1),
        To = new PlanToSheet(scale.Denominator, turns, (bounds.Low + bounds.High) * 0.5, planBox.Middle),
    };
}
