namespace StoreMap.Sheets;

/// <summary>The house style: every size, weight, colour and hatch of the sheets in one place. Millimetres.</summary>
internal static class SheetStyle
{
    // Line widths, ISO 128 series (step √2).
    public const double Hair = 0.18;
    public const double Narrow = 0.25;
    public const double Medium = 0.35;
    public const double Wide = 0.5;
    public const double Heavy = 0.7;

    // Text heights, ISO 3098 series; nothing on a sheet is smaller than the first.
    public const double TextSmall = 2.5;
    public const double TextMedium = 3.5;
    public const double TextLarge = 5;
    public const double TextTitle = 7;

    // Inks on white paper; all text inks have a contrast of at least 4.5:1 (WCAG 2.2, 1.4.3).
    public const string Paper = "#ffffff";
    public const string Ink = "#111111";
    public const string Muted = "#595959";
    public const string Rule = "#8c8c8c";
    public const string Faint = "#d9d9d9";
    public const string Floor = "#ffffff";
    public const string Probed = "#dfe8f0";
    public const string ObstacleFill = "#e6e6e6";
    public const string FixtureFill = "#ffffff";
    public const string RoomFill = "#f7f7f7";

    // Categories: the Okabe-Ito set, told apart with every common colour vision.
    public const string Blue = "#0072b2";
    public const string SkyBlue = "#56b4e9";
    public const string Green = "#009e73";
    public const string Orange = "#e69f00";
    public const string Vermilion = "#d55e00";
    public const string Purple = "#cc79a7";

    /// <summary>Text in the walk's colour: darker than its line, so that it can be read over an arrow.</summary>
    public const string WalkInk = "#005a8d";

    // Safety colours (ISO 3864 sense), used by cautions alone and never by the concentration scale.
    public const string WarningYellow = "#f9a800";
    public const string ProhibitionRed = "#9b2423";
    public const string MandatoryBlue = "#005387";

    /// <summary>Room between a text and the edge of its box.</summary>
    public const double Pad = 1.2;

    public static TextStyle Small { get; } = new(TextSmall);

    public static TextStyle SmallBold { get; } = new(TextSmall, true);

    public static TextStyle SmallMuted { get; } = new(TextSmall, false, Muted);

    /// <summary>Order numbers of the walk, in the walk's colour: tags of cases are black.</summary>
    public static TextStyle SmallWalk { get; } = new(TextSmall, false, WalkInk);

    public static TextStyle SmallWalkBold { get; } = new(TextSmall, true, WalkInk);

    public static TextStyle Body { get; } = new(TextMedium);

    public static TextStyle BodyBold { get; } = new(TextMedium, true);

    public static TextStyle Heading { get; } = new(TextLarge, true);

    public static TextStyle Title { get; } = new(TextTitle, true);
}
