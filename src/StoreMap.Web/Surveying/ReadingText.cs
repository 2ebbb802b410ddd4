using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Web.Surveying;

/// <summary>What is typed at the number pad, and the reading made of it.</summary>
internal static class ReadingText
{
    /// <summary>True for 12, 0.5, &lt;1, &gt;1000.</summary>
    public static bool IsReading(string text)
    {
        var number = text.TrimStart('<', '>');
        return text.Length - number.Length <= 1 && double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            && value <= 1_000_000 && (number.Length == text.Length || value > 0);
    }

    /// <summary>True for a reading that a monitor can have shown.</summary>
    public static bool IsReading(string text, double rangePpm) => IsReading(text) && Number(text) <= rangePpm;

    /// <summary>What is wrong or still missing in a reading that is being typed; null when nothing is, or nothing was typed.</summary>
    /// <param name="text">As typed so far.</param>
    /// <param name="rangePpm">Up to where the monitor shows.</param>
    public static string? Missing(string text, double rangePpm)
    {
        if (text.Length == 0 || IsReading(text, rangePpm)) return null;
        var over = Over(rangePpm);
        return !double.TryParse(text.TrimStart('<', '>'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) || (text[0] is '<' or '>' && number <= 0)
            ? text[0] switch
            {
                '<' => "< needs a number above 0, such as <1",
                '>' => $"> needs a number above 0, such as {over}",
                _ => $"{text} is no number yet",
            }
            : $"{text} is more than the monitor shows ({over[1..]} ppm)";
    }

    /// <summary>How it is written that the gas is over what the monitor shows.</summary>
    public static string Over(double rangePpm) => ">" + rangePpm.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>True when what is typed so far is, or may become, that the gas is over what the monitor shows.</summary>
    public static bool IsNearOver(string text, double rangePpm) => text is ">" || (IsReading(text) && Number(text) > rangePpm);

    /// <summary>The number for judging danger: what is below a limit is taken as nothing.</summary>
    public static double Number(string text) => text.StartsWith('<') ? 0 : double.Parse(text.TrimStart('>'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    /// <summary>True when a reading says no more than that the gas is over what the monitor shows, as it is read back from the survey.</summary>
    public static bool IsOver(string text, double rangePpm) => text.StartsWith('>') || Number(text) >= rangePpm;

    /// <summary>What a key makes of the text so far.</summary>
    public static string Press(string text, char key) => key switch
    {
        '<' or '>' => text.StartsWith(key) ? text[1..] : key + text.TrimStart('<', '>'),
        '.' when text.Contains('.', StringComparison.Ordinal) => text,
        _ when text.Length >= 8 => text,
        _ => text + key,
    };

    /// <summary>A reading in the form of a survey file. The place is given beside the point's id, so it stands when the points are planned anew.</summary>
    public static JsonObject Body(Plan plan, ProbePoint point, string ppm, ProbeHeight height, AirState air, string note, string? gas)
    {
        double Unit(double metres) => Math.Round(plan.Units.FromMetres(metres), 4);
        var body = new JsonObject { ["ppm"] = ppm, ["point"] = point.Id };
        if (point.Fixture is not null) body["fixture"] = point.Fixture;
        if (point.Fixture is not null && point.Along is { } along) body["at"] = Unit(along);
        if (point.OnBack) body["side"] = "back";
        body["x"] = Unit(point.At.X);
        body["y"] = Unit(point.At.Y);
        body["height"] = height.Kebab();
        if (point.Fixture is not null) body["spot"] = point.Spot.Kebab();
        body["air"] = air.Kebab();
        if (gas is not null) body["gas"] = gas;
        if (!string.IsNullOrWhiteSpace(note)) body["note"] = note.Trim();
        return body;
    }
}
