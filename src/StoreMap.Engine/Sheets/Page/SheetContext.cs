namespace StoreMap.Sheets;

/// <summary>What a sheet says of itself, handed in by the caller: the engine has no clock and no settings.</summary>
public sealed record SheetContext
{
    /// <summary>Legal owner of the drawing: the servicing company.</summary>
    public string Company { get; init; } = "";

    /// <summary>Who surveyed and drew.</summary>
    public string Technician { get; init; } = "";

    /// <summary>The technician's certificate number; empty when not given.</summary>
    public string Certificate { get; init; } = "";

    /// <summary>Who approved; empty leaves room to sign.</summary>
    public string ApprovedBy { get; init; } = "";

    /// <summary>Identification number of the document; empty for the store's id.</summary>
    public string DocumentNumber { get; init; } = "";

    /// <summary>Date of issue as it is printed, such as <c>2026-07-14</c>; empty for the date of the survey.</summary>
    public string Issued { get; init; } = "";

    /// <summary>Number of the first sheet drawn, at least 1.</summary>
    public int FirstSheet { get; init; } = 1;

    /// <summary>Number of sheets in the set; null for those drawn by the call.</summary>
    public int? SheetCount { get; init; }

    /// <summary>Sheet size for plans; null for A3, or tabloid where lengths are in feet or inches.</summary>
    public PaperSize? PlanPaper { get; init; }

    /// <summary>Sheet size for tables and text; null for A4 beside plans of an ISO size, letter beside those of a US size.</summary>
    public PaperSize? TextPaper { get; init; }

    /// <summary>Colours of the concentration.</summary>
    public ColourMapKind ColourMap { get; init; } = ColourMapKind.Cividis;

    /// <summary>Language code of the words; a language without a word file gives English.</summary>
    public string Language { get; init; } = "en";

    /// <summary>Codes of the languages that sheets can be written in, English first.</summary>
    public static IReadOnlyList<string> Languages => Words.Languages;

    /// <summary>The company's mark for the title block; null for none.</summary>
    public SheetLogo? Logo { get; init; }

    /// <summary>Denominator of the scale at which the plan is drawn again in parts over several pages; null for one page.</summary>
    public double? TileScale { get; init; }

    /// <summary>Days of the visits that the results rest on, oldest first; empty when they rest on the drawn one alone.</summary>
    public IReadOnlyList<DateOnly> RestsOn { get; init; } = [];

    /// <summary>True when the results rest on the service record too.</summary>
    public bool WithServiceRecord { get; init; }
}
