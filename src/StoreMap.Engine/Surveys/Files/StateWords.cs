using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>The spot, height and air state of a reading, as written; null where nothing was written.</summary>
internal readonly record struct StateText(
    string? Height, string? Spot, string? Air, string? Cooling, string? Cover, string? Door, double? SinceSeconds);

/// <summary>Reads the words for spot, height and air state.</summary>
internal static class StateWords
{
    private static readonly string[] Coolings = ["on", "off", "off-cycle", "electric", "hot-gas"];
    private static readonly string[] Covers = ["none", "open", "closed"];
    private static readonly string[] Doors = ["shut", "cracked", "open"];

    /// <summary>Puts the words on a reading; unknown words are errors.</summary>
    public static Reading Apply(Reading reading, StateText text, string element, SurveyProblems problems)
    {
        var height = Word<ProbeHeight>(text.Height);
        var spot = Word<Spot>(text.Spot);
        var heightAsSpot = height is null ? Word<Spot>(text.Height) : null;
        if (text.Height is not null && height is null && heightAsSpot is null)
        {
            Unknown("height", text.Height, KebabNames.All<ProbeHeight>() + ", or the name of a spot");
        }

        if (text.Spot is not null && spot is null) Unknown("spot", text.Spot, KebabNames.All<Spot>());
        if (heightAsSpot is not null && spot is not null && heightAsSpot != spot)
        {
            problems.Error(element, "height", text.Height, "reading-spot", "The height names one spot and the column spot another.");
        }

        var air = Word<AirState>(text.Air);
        if (text.Air is not null && air is null) Unknown("air", text.Air, KebabNames.All<AirState>());
        var detail = new AirDetail(
            OneOf("cooling", text.Cooling, Coolings), OneOf("cover", text.Cover, Covers), OneOf("door", text.Door, Doors), text.SinceSeconds);
        return reading with
        {
            Height = height, Spot = spot ?? heightAsSpot, Air = air ?? AirState.FansOn,
            Detail = detail == new AirDetail(null, null, null, null) ? null : detail,
        };

        string? OneOf(string field, string? word, string[] allowed)
        {
            if (word is null) return null;
            var lower = word.ToLowerInvariant();
            if (allowed.Contains(lower)) return lower;
            Unknown(field, word, string.Join(", ", allowed));
            return null;
        }

        void Unknown(string field, string word, string allowed) =>
            problems.Error(element, field, word, "reading-" + field, $"This word is not known. Allowed: {allowed}.");
    }

    private static T? Word<T>(string? text)
        where T : struct, Enum => KebabNames.Parse<T>(text?.ToLowerInvariant());
}
