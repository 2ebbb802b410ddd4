using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The plan once more at a larger scale, in parts over several pages that overlap a little; the first page shows where each
/// part lies.</summary>
internal static class PlanTiles
{
    /// <summary>Neighbouring parts both show a strip of this width, sheet millimetres.</summary>
    private const double Overlap = 12;

    private const double Margin = 6;

    /// <summary>Most parts of one plan.</summary>
    private const int Most = 60;

    /// <summary>Draws the parts as pages of the sheet's set, and their borders on its first page.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="overview">Its first page.</param>
    /// <param name="page">How that page is set out.</param>
    /// <param name="denominator">Scale of the parts.</param>
    public static void Draw(PlanSheet sheet, SvgWriter overview, PlanPage page, double denominator)
    {
        var frame = new PageFrame(sheet.Set.PlanPaper, sheet.Set.PlanPaper.LongMillimetres > 300);
        var title = frame.TitleBlockBox();
        var d = frame.Drawing;
        var box = new SheetBox(d.X, d.Y, d.Width, d.Height - title.Height).Inset(0.6);
        var scale = StandardScale.At(sheet.Plan.Units, denominator);
        var words = sheet.Set.Words;
        // Everything is set out on one large sheet first; each page is a window on it.
        var whole = new PlanToSheet(scale.Denominator, page.To.QuarterTurns, default, default);
        var bounds = SheetBox.Around(sheet.Plan.Outline.Concat(sheet.Plan.Equipment.Select(e => e.At)).Select(whole.Point)).Inset(-Margin);
        int across = Count(bounds.Width, box.Width), down = Count(bounds.Height, box.Height);
        if (across * down is < 2 or > Most) return;
        overview.Begin("parts", "parts", words["page.parts"]);
        for (var row = 0; row < down; row++)
        {
            for (var column = 0; column < across; column++)
            {
                var name = Name(row, column);
                var corner = new SheetPoint(Start(bounds.X, bounds.Width, box.Width, column, across), Start(bounds.Y, bounds.Height, box.Height, row, down));
                var middle = whole.Plan(corner + new SheetPoint(box.Width / 2, box.Height / 2));
                var part = new PlanPage
                {
                    Frame = frame, PlanBox = box, Notes = [], TitleBox = title, Scale = scale, BarAt = new SheetPoint(d.X + 5.5, title.Y + 3),
                    To = new PlanToSheet(scale.Denominator, page.To.QuarterTurns, middle, box.Middle),
                };
                var head = sheet.Head with { Name = $"{sheet.Head.Name}-{name.ToLowerInvariant()}", Title = words.Say("page.part", sheet.Head.Title, name) };
                var svg = sheet.Set.Begin(head, part, sheet.Plan, words.Say("page.part-description", name, sheet.Description));
                sheet.DrawPlan(svg, part, part: true);
                PlanPages.DrawBar(svg, sheet.Plan, part, words);
                svg.Text(new(part.BarAt.X, d.Bottom - 4), Neighbours(words, row, column, down, across), SheetStyle.Small);
                Border(overview, page, whole, new SheetBox(corner.X, corner.Y, box.Width, box.Height), name);
            }
        }

        overview.End();
    }

    /// <summary>A part's name: its row as a letter, its column as a number.</summary>
    internal static string Name(int row, int column) => LeakLetters.Of(row) + Numbers.Whole(column + 1);

    private static int Count(double whole, double part) => whole <= part ? 1 : (int)Math.Ceiling((whole - Overlap) / (part - Overlap));

    private static double Start(double from, double whole, double part, int index, int count) =>
        count == 1 ? from - ((part - whole) / 2) : from + (index * (whole - part) / (count - 1));

    private static string Neighbours(Words words, int row, int column, int down, int across)
    {
        var names = new List<string>();
        if (row > 0) names.Add(words.Say("page.above", Name(row - 1, column)));
        if (row + 1 < down) names.Add(words.Say("page.below", Name(row + 1, column)));
        if (column > 0) names.Add(words.Say("page.left", Name(row, column - 1)));
        if (column + 1 < across) names.Add(words.Say("page.right", Name(row, column + 1)));
        return words.Say("page.goes-on", string.Join(", ", names));
    }

    /// <summary>A part's border on the first page: long-dash double-dot, as boundaries are drawn.</summary>
    private static void Border(SvgWriter svg, PlanPage page, PlanToSheet whole, SheetBox part, string name)
    {
        var corners = part.Corners.Select(c => page.To.Point(whole.Plan(c))).Select(p => new SheetPoint(Math.Clamp(p.X, page.PlanBox.X, page.PlanBox.Right), Math.Clamp(p.Y, page.PlanBox.Y, page.PlanBox.Bottom)));
        svg.Begin("part-" + name, "part", name);
        svg.Polygon(corners, Paint.Line(SheetStyle.Narrow, SheetStyle.Muted, "6 1 0.6 1 0.6 1"));
        svg.End();
    }
}
