namespace StoreMap.Plans;

/// <summary>What a drawing itself does not say.</summary>
public sealed record DrawingOptions
{
    /// <summary>The drawing's unit; null to take what a DXF says. An SVG needs one.</summary>
    public LengthUnit? Units { get; init; }

    /// <summary>How many of <see cref="Units"/> one user unit of an SVG is, above 0.</summary>
    public double PerUnit { get; init; } = 1;

    /// <summary>What layers or blocks stand for, by name; the rest is told by plain words in their names.</summary>
    public IReadOnlyDictionary<string, DrawingRole> Roles { get; init; } = new Dictionary<string, DrawingRole>();

    /// <summary>The layout's id; by default made from the file's name.</summary>
    public string? Id { get; init; }

    /// <summary>The store's name; by default the id.</summary>
    public string? Name { get; init; }

    /// <summary>The store's IANA time zone; left out by default.</summary>
    public string? TimeZone { get; init; }
}

/// <summary>Makes a layout to be completed of a plan drawing, DXF (text, R12 and later) or SVG 1.1. Rules: docs/formats.md.</summary>
public static class DrawingImport
{
    /// <summary>Reads a DXF.</summary>
    /// <param name="stream">The file, at most 16 MiB.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <param name="options">Unit and roles.</param>
    /// <returns>A layout that passes the checks; its warnings begin with those of the drawing.</returns>
    /// <exception cref="RefusedInputException">No text DXF, no unit, no outline, or more than a plan can hold.</exception>
    public static LayoutDocument ReadDxf(Stream stream, string? fileName = null, DrawingOptions? options = null)
    {
        options ??= new DrawingOptions();
        var problems = new ProblemList(fileName);
        var drawing = DxfReader.Read(InputText.Bytes(stream, fileName), fileName, options.Units, problems);
        return DrawingLayout.Make(drawing, fileName, options, problems);
    }

    /// <summary>Reads an SVG.</summary>
    /// <param name="stream">The file, at most 16 MiB.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <param name="options">Unit, scale and roles.</param>
    /// <returns>A layout that passes the checks; its warnings begin with those of the drawing.</returns>
    /// <exception cref="RefusedInputException">No SVG, no unit, no outline, or more than a plan can hold.</exception>
    public static LayoutDocument ReadSvg(Stream stream, string? fileName = null, DrawingOptions? options = null)
    {
        options ??= new DrawingOptions();
        if (options.Units is not { } unit)
            throw DxfGroups.Refused(fileName, "svg-units", "An SVG does not say what its user unit is in the store. Say it with --units ft, in, m or mm, and --per-unit when one user unit is not one of them.");
        var problems = new ProblemList(fileName);
        using var bytes = new MemoryStream(InputText.Bytes(stream, fileName), writable: false);
        var drawing = SvgReader.Read(bytes, fileName, unit, options.PerUnit, problems);
        return DrawingLayout.Make(drawing, fileName, options, problems);
    }
}
