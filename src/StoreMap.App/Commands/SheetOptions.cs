using System.CommandLine;
using StoreMap.App.Shell;
using StoreMap.Sheets;

namespace StoreMap.App.Commands;

/// <summary>What sheets say of themselves and how they are drawn: options of every verb that draws.</summary>
internal sealed class SheetOptions
{
    private readonly Option<string?> company = new("--company") { Description = "The servicing company, for the title blocks.", HelpName = "NAME" };
    private readonly Option<string?> technician = new("--technician") { Description = "Who surveyed and drew; the survey's technicians when not given.", HelpName = "NAME" };
    private readonly Option<string?> logo = new("--logo") { Description = "The company's mark for the title blocks: a PNG, or an SVG of plain shapes.", HelpName = "FILE" };
    private readonly Option<string> language = new("--language") { Description = $"Language of the sheets: {string.Join(", ", SheetContext.Languages)}.", HelpName = "CODE", DefaultValueFactory = _ => "en" };
    private readonly Option<string?> paper = new("--paper") { Description = $"Sheet size of plans: {string.Join(", ", PaperSize.All.Select(p => p.Name))}. Text pages are A4 beside A sizes, letter beside the others.", HelpName = "SIZE" };
    private readonly Option<ColourMapKind> colours = new("--colours") { Description = "Colours of the concentration: cividis or viridis.", HelpName = "MAP" };
    private readonly Option<double?> parts = new("--parts") { Description = "Draw the plan again in parts over several pages, at the standard scale nearest to 1:N.", HelpName = "N" };

    public void AddTo(Command command)
    {
        language.AcceptOnlyFromAmong([.. SheetContext.Languages]);
        paper.AcceptOnlyFromAmong([.. PaperSize.All.Select(p => p.Name)]);
        foreach (var option in new Option[] { company, technician, logo, language, paper, colours, parts }) command.Add(option);
        command.Validators.Add(result =>
        {
            if (result.GetValue(parts) is { } n && n is not (>= 10 and <= 5000)) result.AddError("--parts must be between 10 and 5000.");
        });
    }

    /// <summary>The context that the options ask for.</summary>
    /// <exception cref="StoreMap.RefusedInputException">The mark is no PNG or plain SVG.</exception>
    public SheetContext Of(ParseResult parse) => new()
    {
        Company = parse.GetValue(company) ?? "", Technician = parse.GetValue(technician) ?? "", Language = parse.GetValue(language)!,
        PlanPaper = PaperSize.Find(parse.GetValue(paper)), ColourMap = parse.GetValue(colours), TileScale = parse.GetValue(parts),
        Logo = parse.GetValue(logo) is { } file ? Mark(file) : null,
    };

    private static SheetLogo Mark(string file)
    {
        using var stream = InputFile.Open(file);
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        try
        {
            return SheetLogo.Read(bytes.ToArray());
        }
        catch (FormatException e)
        {
            throw InputFile.Refused(file, "plain-mark", e.Message);
        }
    }
}
