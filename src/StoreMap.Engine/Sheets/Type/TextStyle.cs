namespace StoreMap.Sheets;

/// <summary>How a piece of text is set.</summary>
/// <param name="HeightMillimetres">Height of the capital letters, as ISO 3098 states text heights.</param>
/// <param name="Bold">True for the semi-bold face.</param>
/// <param name="Colour">Colour of the letters.</param>
internal readonly record struct TextStyle(double HeightMillimetres, bool Bold = false, string Colour = SheetStyle.Ink)
{
    /// <summary>The face.</summary>
    public TrueTypeFace Face => Bold ? Faces.SemiBold : Faces.Regular;

    /// <summary>Size of one em, millimetres.</summary>
    public double FontSize => HeightMillimetres / Face.CapHeight;

    /// <summary>Distance from one base line to the next, millimetres.</summary>
    public double LineHeight => HeightMillimetres * 1.75;

    /// <summary>Width of a text, millimetres: the sum of the advances, without kerning.</summary>
    public double WidthOf(string text)
    {
        var ems = 0.0;
        foreach (var rune in text.EnumerateRunes()) ems += Face.Advance(rune.Value);
        return ems * FontSize;
    }

    /// <summary>The text cut to a width, with an ellipsis when something was cut.</summary>
    /// <param name="text">The text.</param>
    /// <param name="width">Room, millimetres.</param>
    public string Fit(string text, double width)
    {
        if (WidthOf(text) <= width) return text;
        var length = text.Length;
        while (length > 0 && WidthOf(text[..length].TrimEnd() + "…") > width) length--;
        if (length > 0 && char.IsHighSurrogate(text[length - 1])) length--;
        return text[..length].TrimEnd() + "…";
    }

    /// <summary>Breaks a text into lines at spaces; a word wider than a line is broken where it must be.</summary>
    /// <param name="text">The text; a line feed begins a new line.</param>
    /// <param name="width">Room, millimetres.</param>
    public IReadOnlyList<string> Wrap(string text, double width)
    {
        var lines = new List<string>();
        foreach (var paragraph in text.Split('\n'))
        {
            var line = "";
            foreach (var word in paragraph.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                var rest = word;
                var joined = line.Length == 0 ? rest : line + " " + rest;
                if (WidthOf(joined) <= width)
                {
                    line = joined;
                    continue;
                }

                if (line.Length > 0) lines.Add(line);
                while (WidthOf(rest) > width && rest.Length > 1)
                {
                    var take = rest.Length - 1;
                    while (take > 1 && WidthOf(rest[..take]) > width) take--;
                    // An id is torn behind a hyphen where it has one.
                    if (rest.LastIndexOf('-', take - 1) is > 0 and var hyphen) take = hyphen + 1;
                    lines.Add(rest[..take]);
                    rest = rest[take..];
                }

                line = rest;
            }

            lines.Add(line);
        }

        return lines;
    }
}
