using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>What every page shares: beginning, frame, title block, end.</summary>
internal static class SheetPages
{
    /// <summary>Begins a page with its frame.</summary>
    public static SvgWriter Begin(PageFrame frame, string title, string description, SheetContext context)
    {
        var svg = new SvgWriter(frame.Width, frame.Height, title, description, context.Language);
        frame.Draw(svg);
        return svg;
    }

    /// <summary>Draws the title block and makes the sheet.</summary>
    public static Sheet End(SvgWriter svg, PageFrame frame, SheetBox titleBox, TitleBlock block, SheetContext context, Words words, string name)
    {
        block.Draw(svg, titleBox, context, words, frame.Paper.Name);
        return new Sheet(name, $"{block.Title}, {block.Supplement}", frame.Width, frame.Height, svg.Finish());
    }

    /// <summary>A title block for a store's sheet.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="context">What the caller handed in.</param>
    /// <param name="title">Title of the sheet.</param>
    /// <param name="kind">Kind of document.</param>
    /// <param name="scale">Scale as written; null without a plan.</param>
    /// <param name="index">0 for the first sheet drawn by the call.</param>
    /// <param name="count">Sheets drawn by the call.</param>
    /// <param name="date">Date where the caller gave none.</param>
    public static TitleBlock Block(Plan plan, SheetContext context, string title, string kind, string? scale, int index, int count, string date) => new()
    {
        Title = title, Supplement = plan.Name, DocumentKind = kind, Scale = scale,
        Number = context.DocumentNumber.Length > 0 ? context.DocumentNumber : plan.Id, Revision = Numbers.Whole(plan.Revision),
        Date = context.Issued.Length > 0 ? context.Issued : date, Sheet = context.FirstSheet + index,
        Count = context.SheetCount ?? (context.FirstSheet + count - 1),
    };

    /// <summary>A day as it is printed.</summary>
    public static string Day(DateTimeOffset time) => time.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A day as it is printed.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Hours and minutes.</summary>
    public static string Clock(DateTimeOffset time) => time.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);
}
