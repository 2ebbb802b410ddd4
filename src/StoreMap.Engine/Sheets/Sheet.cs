namespace StoreMap.Sheets;

/// <summary>One drawn page as an SVG 1.1 document; PNG, PDF and screen are views of it.</summary>
/// <param name="Name">File name without extension, such as <c>heat-map</c>.</param>
/// <param name="Title">Title for people.</param>
/// <param name="WidthMillimetres">Page width, millimetres.</param>
/// <param name="HeightMillimetres">Page height, millimetres.</param>
/// <param name="Svg">The document, LF line ends, no outside references.</param>
public sealed record Sheet(string Name, string Title, double WidthMillimetres, double HeightMillimetres, string Svg);
