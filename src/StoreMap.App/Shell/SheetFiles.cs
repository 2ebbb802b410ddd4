using System.Text;
using StoreMap.Raster;
using StoreMap.Sheets;

namespace StoreMap.App.Shell;

/// <summary>Sheets as files: the drawn ones as SVG and PNG, all that belong together bound in one PDF.</summary>
internal static class SheetFiles
{
    private const double Dpi = 150;

    /// <summary>Adds the files of a drawing and the tables that go with it.</summary>
    /// <param name="files">Where they are collected.</param>
    /// <param name="folder">Folder to write to.</param>
    /// <param name="sheets">The drawing first; none adds nothing.</param>
    /// <param name="info">Title, author and date of the PDF.</param>
    public static void Add(OutputFiles files, string folder, IReadOnlyList<Sheet> sheets, PdfInfo info)
    {
        if (sheets.Count == 0) return;
        AddPicture(files, folder, sheets[0]);
        files.Add(Path.Combine(folder, sheets[0].Name + ".pdf"), SheetRaster.ToPdf(sheets, info));
    }

    /// <summary>Adds drawings that each stand alone, as pictures and bound in one PDF.</summary>
    public static void AddAll(OutputFiles files, string folder, string name, IReadOnlyList<Sheet> sheets, PdfInfo info)
    {
        if (sheets.Count == 0) return;
        foreach (var sheet in sheets) AddPicture(files, folder, sheet);
        files.Add(Path.Combine(folder, name + ".pdf"), SheetRaster.ToPdf(sheets, info));
    }

    /// <summary>What a PDF says of itself; the date is that of the survey, so that the same input gives the same bytes.</summary>
    public static PdfInfo Info(string title, SheetContext context, DateTimeOffset date) => new(title, context.Technician, context.Language, date.UtcDateTime);

    private static void AddPicture(OutputFiles files, string folder, Sheet sheet)
    {
        files.Add(Path.Combine(folder, sheet.Name + ".svg"), Encoding.UTF8.GetBytes(sheet.Svg));
        files.Add(Path.Combine(folder, sheet.Name + ".png"), SheetRaster.ToPng(sheet, Dpi));
    }
}
