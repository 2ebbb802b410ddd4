using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The sheets of one call: begun one by one, numbered and given their title blocks when all are there.</summary>
internal sealed class SheetSet
{
    /// <summary>Clear of the centring marks at the sides.</summary>
    private const double Gap = 6;

    /// <summary>Clear of the centring mark at the upper edge.</summary>
    private const double TextTop = 7;

    private readonly Plan plan;
    private readonly string date;
    private readonly List<Pending> pages = [];

    /// <summary>An empty set.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="context">What the caller handed in.</param>
    /// <param name="date">Date where the caller gave none.</param>
    public SheetSet(Plan plan, SheetContext context, string date)
    {
        this.plan = plan;
        this.date = date;
        Context = context;
        Words = Words.For(context.Language);
    }

    public SheetContext Context { get; }

    public Words Words { get; }

    /// <summary>Sheet size for plans.</summary>
    public PaperSize PlanPaper => Context.PlanPaper ?? PaperSize.ForPlans(plan.FileUnits);

    private PageFrame TextFrame => new(Context.TextPaper ?? PaperSize.ForText(PlanPaper), false);

    /// <summary>The columns of a page of text.</summary>
    public IReadOnlyList<SheetBox> TextColumns(int columns)
    {
        var frame = TextFrame;
        var d = frame.Drawing;
        var width = (d.Width - (Gap * (columns + 1))) / columns;
        return
        [
            .. Enumerable.Range(0, columns)
                .Select(i => new SheetBox(d.X + Gap + (i * (width + Gap)), d.Y + TextTop, width, frame.TitleBlockBox().Y - d.Y - TextTop - Gap)),
        ];
    }

    /// <summary>Begins a page with its frame.</summary>
    /// <param name="head">What it is called.</param>
    /// <param name="frame">Its frame.</param>
    /// <param name="titleBox">Place of the title block.</param>
    /// <param name="scale">Scale as written; null without a plan.</param>
    /// <param name="description">For those who can't see it.</param>
    public SvgWriter Begin(SheetHead head, PageFrame frame, SheetBox titleBox, string? scale, string description)
    {
        var svg = new SvgWriter(frame.Width, frame.Height, $"{head.Title}, {plan.Name}", description, Context.Language);
        frame.Draw(svg);
        pages.Add(new Pending(svg, head, frame, titleBox, scale));
        return svg;
    }

    /// <summary>Begins a page for a plan.</summary>
    public SvgWriter Begin(SheetHead head, PlanPage page, Plan plan, string description) => Begin(head, page.Frame, page.TitleBox, ScaleText(plan, page.Scale), description);

    /// <summary>A plan's scale as the title block writes it.</summary>
    public string ScaleText(Plan plan, StandardScale scale) => plan.Schematic ? Words["title.not-to-scale"] : scale.Text;

    /// <summary>Sets items on as many pages of text as they need; none when there are no items.</summary>
    /// <param name="head">What the pages are called.</param>
    /// <param name="items">What to set.</param>
    /// <param name="columns">Columns of a page.</param>
    public void AddText(SheetHead head, IReadOnlyList<FlowItem> items, int columns = 1)
    {
        var frame = TextFrame;
        var titleBox = frame.TitleBlockBox();
        var boxes = TextColumns(columns);
        items = [.. items.SkipWhile(i => i.Parts)];
        for (var n = 1; items.Count > 0; n++)
        {
            var name = n == 1 ? head.Name : $"{head.Name}-{Numbers.Whole(n)}";
            var svg = Begin(head with { Name = name }, frame, titleBox, null, Words.Say("page.text-description", head.Title, plan.Name));
            svg.Begin("text", "text");
            items = FlowColumns.Fill(svg, items, boxes);
            svg.End();
        }
    }

    /// <summary>Draws the title blocks and makes the sheets.</summary>
    public IReadOnlyList<Sheet> Finish() => [.. pages.Select((page, i) =>
    {
        var block = new TitleBlock
        {
            Title = page.Head.Title, Supplement = plan.Name, DocumentKind = page.Head.Kind, Scale = page.Scale,
            Number = Context.DocumentNumber.Length > 0 ? Context.DocumentNumber : plan.Id, Revision = Numbers.Whole(plan.Revision),
            Date = Context.Issued.Length > 0 ? Context.Issued : date, Sheet = Context.FirstSheet + i, Count = Context.SheetCount ?? (Context.FirstSheet + pages.Count - 1),
        };
        block.Draw(page.Svg, page.TitleBox, Context, Words, page.Frame.Paper.Name);
        return new Sheet(page.Head.Name, $"{page.Head.Title}, {plan.Name}", page.Frame.Width, page.Frame.Height, page.Svg.Finish()) { Links = page.Svg.Links.Count == 0 ? [] : page.Svg.Links };
    })];

    private sealed record Pending(SvgWriter Svg, SheetHead Head, PageFrame Frame, SheetBox TitleBox, string? Scale);
}

/// <summary>What a sheet is called.</summary>
/// <param name="Name">File name without extension.</param>
/// <param name="Title">Title for people.</param>
/// <param name="Kind">Kind of document.</param>
internal sealed record SheetHead(string Name, string Title, string Kind);
