using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads the readings of a survey file.</summary>
internal sealed class ReadingReader(
    FieldReader fields, ProblemList list, SurveyProblems problems, StoreClock clock, PlaceFinder places, IReadOnlyList<Instrument> instruments)
{
    private const double MostCoordinate = 1e6;
    private static readonly string[] Known =
        [.. ReadingColumns.Names.Where(n => n != "event"), "deviation", "shown"];

    private static readonly ReadingPlace Nowhere = new() { At = default };
    private readonly HashSet<string> ids = [.. instruments.Select(i => i.Id)];

    public List<ReadingDraft> Read(IReadOnlyList<JsonNode?> nodes)
    {
        var drafts = new List<ReadingDraft>(nodes.Count);
        for (var i = 0; i < nodes.Count && !list.Full; i++)
        {
            var place = $"readings[{i.ToString(CultureInfo.InvariantCulture)}]";
            if (nodes[i] is not JsonObject map) fields.WrongType(place, nodes[i], "an object in curly brackets");
            else if (One(place, map) is { } draft) drafts.Add(draft);
        }

        return drafts;
    }

    private ReadingDraft? One(string element, JsonObject map)
    {
        var item = new FieldReader(map, element, fields.Unit, list);
        var time = Time(element, item);
        var ppm = Ppm(element, item, map);
        var place = places.Find(element, Place(item), problems);
        var instrument = item.Text("instrument");
        if (instrument is not null && !ids.Contains(instrument))
        {
            problems.Error(element, "instrument", instrument, "survey-instrument", "No instrument of this survey has this id.");
        }

        var reading = new Reading
        {
            Time = time ?? default, Ppm = 0, DeviationPpm = item.Number("deviation", 0, PpmText.MostPpm),
            Shown = item.Number("shown", -PpmText.MostPpm, PpmText.MostPpm), Place = place ?? Nowhere, Instrument = instrument, Note = item.Text("note"),
            Gas = item.Text("gas") is { } gas ? GasWords.Read(gas, element, problems) : null, Other = SurveyJsonReader.Others(map, Known),
        };
        var state = new StateText(
            item.Text("height"), item.Text("spot"), item.Text("air"), item.Text("cooling"), item.Text("cover"), item.Text("door"),
            item.Number("since", 0, MostCoordinate));
        reading = places.WithPointsState(StateWords.Apply(reading, state, element, problems));
        return time is null || ppm is null || place is null ? null : new ReadingDraft(element, reading, ppm.Value);
    }

    private DateTimeOffset? Time(string element, FieldReader item)
    {
        if (item.RequiredText("time", "when the number was read") is not { } text) return null;
        if (clock.Read(text) is var (time, note))
        {
            ReadingMessages.Clock(note, element, text, problems);
            return time;
        }

        ReadingMessages.Time(element, "time", text, problems);
        return null;
    }

    private PpmText? Ppm(string element, FieldReader item, JsonObject map)
    {
        var node = map["ppm"];
        if (node is null)
        {
            problems.Count(element, "ppm", null, "reading-missing", "The reading has no number; it was left out.");
            return null;
        }

        if (node.GetValueKind() is not (JsonValueKind.Number or JsonValueKind.String))
        {
            item.WrongType("ppm", node, "a number, or a text such as \"<1\"");
            return null;
        }

        var text = node.GetValueKind() == JsonValueKind.Number ? node.ToJsonString() : node.GetValue<string>();
        var ppm = PpmText.Parse(text, new CsvNumbers(false));
        if (ppm is null) ReadingMessages.Ppm(element, text, problems);
        return ppm;
    }

    private static PlaceText Place(FieldReader item)
    {
        var side = item.Text("side");
        if (side is not (null or "front" or "back")) item.Error("side", item["side"], "reading-side", "This word is not known. Allowed: front, back.");
        return new PlaceText(
            item.Text("point"), item.Text("fixture"), item.Number("at", -MostCoordinate, MostCoordinate), null, side == "back",
            item.Number("x", -MostCoordinate, MostCoordinate), item.Number("y", -MostCoordinate, MostCoordinate));
    }
}
