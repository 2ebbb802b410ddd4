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

    /// <summary>What is still missing of a reading that is being typed; null when nothing is, or nothing was typed.</summary>
    public static string? Missing(string text) => text.Length == 0 || IsReading(text) ? null : text[0] switch
    {
        '<' => "< needs a number above 0, such as <1",
        '>' => "> needs a number above 0, such as >1000",
        _ => double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _) ? $"{text} is more than 1000000 ppm" : $"{text} is no number yet",
    };

    /// <summary>The number for judging danger: what is below a limit is taken as nothing.</summary>
    public static double Number(string text) => text.StartsWith('<') ? 0 : double.Parse(text.TrimStart('>'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

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
