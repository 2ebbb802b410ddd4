namespace StoreMap.Sheets;

/// <summary>One drawn page as an SVG 1.1 document; PNG, PDF and screen are views of it.</summary>
/// <param name="Name">File name without extension, such as <c>heat-map</c>.</param>
/// <param name="Title">Title for people.</param>
/// <param name="WidthMillimetres">Page width, millimetres.</param>
/// <param name="HeightMillimetres">Page height, millimetres.</param>
/// <param name="Svg">The document, LF line ends, no outside references.</param>
public sealed record Sheet(string Name, string Title, double WidthMillimetres, double HeightMillimetres, string Svg)
{
    /// <summary>Places that lead to another sheet of the same document; drawn by the PDF alone.</summary>
    public IReadOnlyList<SheetLink> Links { get; init; } = [];
}

/// <summary>A place on a sheet that leads to another sheet.</summary>
/// <param name="X">Left edge, millimetres from the page's upper left corner.</param>
/// <param name="Y">Upper edge.</param>
/// <param name="Width">Width.</param>
/// <param name="Height">Height.</param>
/// <param name="Target">Name of the other sheet.</param>
public sealed record SheetLink(double X, double Y, double Width, double Height, string Target);
