using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads the instruments of a survey file.</summary>
internal sealed class InstrumentReader(FieldReader fields, ProblemList problems)
{
    private const double MostSeconds = 600;
    private static readonly string[] Known =
        ["id", "kind", "delay", "t90", "resolution", "detectionLimit", "range", "calibrated", "responses"];

    /// <summary>The instruments; one with the defaults when the file has none.</summary>
    public IReadOnlyList<Instrument> Read()
    {
        var instruments = new List<Instrument>();
        var index = 0;
        foreach (var node in fields.List("instruments"))
        {
            var place = $"instruments[{(index++).ToString(CultureInfo.InvariantCulture)}]";
            if (node is not JsonObject map)
            {
                fields.WrongType(place, node, "an object in curly brackets");
                continue;
            }

            var instrument = One(new FieldReader(map, place, fields.Unit, problems), map);
            if (instruments.Exists(i => i.Id == instrument.Id))
            {
                problems.Error(place, "id", instrument.Id, "survey-instrument", "Two instruments have this id.");
            }
            else
            {
                instruments.Add(instrument);
            }
        }

        return instruments.Count > 0 ? instruments : [new Instrument { Id = SurveyDefaults.InstrumentId }];
    }

    private Instrument One(FieldReader item, JsonObject map)
    {
        var standard = new Instrument { Id = "" };
        var detection = item.Number("detectionLimit", 1e-6, PpmText.MostPpm) ?? standard.DetectionPpm;
        var range = item.Number("range", 1e-6, PpmText.MostPpm) ?? Math.Max(standard.RangePpm, detection * 2);
        if (range <= detection) item.Error("range", map["range"], "instrument-range", "The range must be above the detection limit.");
        return new Instrument
        {
            Id = item.RequiredText("id", "the instrument's id") ?? "",
            Kind = item.Word<InstrumentKind>("kind") ?? standard.Kind,
            DelaySeconds = item.Number("delay", 0, MostSeconds) ?? standard.DelaySeconds,
            T90Seconds = item.Number("t90", 0, MostSeconds) ?? standard.T90Seconds,
            ResolutionPpm = item.Number("resolution", 0, PpmText.MostPpm) ?? standard.ResolutionPpm,
            DetectionPpm = detection, RangePpm = range, Calibrated = Date(item, map),
            Responses = Responses(item), Other = SurveyJsonReader.Others(map, Known),
        };
    }

    private GasResponse[] Responses(FieldReader item)
    {
        var list = new List<GasResponse>();
        foreach (var node in item.List("responses"))
        {
            if (node is not JsonObject map)
            {
                item.WrongType("responses", node, "a list of objects in curly brackets");
                continue;
            }

            var entry = new FieldReader(map, item.Element, item.Unit, problems);
            var set = Gas(entry, "set");
            var actual = Gas(entry, "actual");
            var has = entry.Require("factor", "true ppm over shown ppm");
            var factor = entry.Number("factor", GasResponse.LeastFactor, GasResponse.MostFactor);
            if (set is not null && actual is not null && has && factor is { } f) list.Add(new GasResponse(set, actual, f));
        }

        // The empty array of the defaults, so that instruments without a table stay equal.
        return list.Count > 0 ? [.. list] : [];
    }

    private static string? Gas(FieldReader entry, string field) =>
        entry.RequiredText(field, "a refrigerant, such as R-404A") is { } text ? GasWords.Known(text) ?? text : null;

    private static DateOnly? Date(FieldReader item, JsonObject map)
    {
        if (item.Text("calibrated") is not { } text) return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)) return date;
        item.Error("calibrated", map["calibrated"], "date", $"{text} is no date; write year-month-day, such as 2026-03-01.");
        return null;
    }
}
