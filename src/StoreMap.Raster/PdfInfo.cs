namespace StoreMap.Raster;

/// <summary>What a PDF says of itself.</summary>
/// <param name="Title">Document title, shown in the window's title bar; empty for that of the first sheet.</param>
/// <param name="Author">Author.</param>
/// <param name="Language">Language of the text, such as <c>en</c>.</param>
/// <param name="Date">Date of making and of change, as handed in; kind UTC.</param>
/// <param name="Subject">Subject; may be empty.</param>
public sealed record PdfInfo(string Title, string Author, string Language, DateTime Date, string Subject = "");
