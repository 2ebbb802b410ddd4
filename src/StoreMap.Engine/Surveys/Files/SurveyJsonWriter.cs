using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Makes the JSON of a survey file.</summary>
internal sealed class SurveyJsonWriter(Plan plan)
{
    private readonly LengthUnit unit = plan.Units;

    public JsonObject Write(Survey survey)
    {
        var root = new JsonObject
        {
            ["format"] = $"{SurveyJsonReader.FormatName}/{SurveyJsonReader.Major}",
            ["store"] = survey.Store,
            ["units"] = unit.Symbol(),
            ["start"] = Time(survey.Start),
        };
        if (survey.LayoutRevision is { } revision) root["layoutRevision"] = revision;
        if (survey.Technicians.Count > 0) root["technicians"] = Array(survey.Technicians, t => JsonValue.Create(t));
        root["instruments"] = Array(survey.Instruments, Instrument);
        if (survey.Protocol is { } protocol) root["protocol"] = protocol.DeepClone();
        if (survey.Zeroed.Count > 0) root["zeroed"] = Array(survey.Zeroed, Zeroed);
        root["readings"] = Array(survey.Readings, Reading);
        if (survey.Coverage.Count > 0) root["coverage"] = Array(survey.Coverage, Coverage);
        if (survey.Findings.Count > 0) root["findings"] = Array(survey.Findings, Finding);
        return Keep(root, survey.Other);
    }

    private static JsonArray Array<T>(IEnumerable<T> items, Func<T, JsonNode> node) => [.. items.Select(node)];

    private static JsonObject Keep(JsonObject node, JsonObject? other)
    {
        if (other is null) return node;
        foreach (var (name, value) in other) node.TryAdd(name, value?.DeepClone());
        return node;
    }

    private static string Time(DateTimeOffset time) => time.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture);

    private static JsonNode Instrument(Instrument i)
    {
        var node = new JsonObject
        {
            ["id"] = i.Id, ["kind"] = i.Kind.Kebab(), ["delay"] = i.DelaySeconds, ["t90"] = i.T90Seconds, ["resolution"] = i.ResolutionPpm,
            ["detectionLimit"] = i.DetectionPpm, ["range"] = i.RangePpm,
        };
        if (i.Calibrated is { } day) node["calibrated"] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        if (i.Responses.Count > 0) node["responses"] = Array(i.Responses, r => new JsonObject { ["set"] = r.SetTo, ["actual"] = r.Actual, ["factor"] = r.Factor });
        return Keep(node, i.Other);
    }

    private static JsonNode Zeroed(ZeroEvent e)
    {
        var node = new JsonObject { ["time"] = Time(e.Time) };
        Text(node, "instrument", e.Instrument);
        return node;
    }

    private static JsonNode Coverage(SystemCoverage c)
    {
        var node = new JsonObject { ["system"] = c.System, ["complete"] = c.Complete };
        if (c.NotChecked.Count > 0) node["notChecked"] = Array(c.NotChecked, t => JsonValue.Create(t));
        return Keep(node, c.Other);
    }

    private JsonNode Finding(SurveyFinding f)
    {
        var node = new JsonObject { ["id"] = f.Id };
        Text(node, "fixture", f.Fixture);
        Text(node, "equipment", f.Equipment);
        if (f.Along is { } along) node["at"] = FileNumber.InUnit(along, unit);
        Text(node, "note", f.Note);
        return Keep(node, f.Other);
    }

    private JsonNode Reading(Reading r)
    {
        var node = new JsonObject { ["time"] = Time(r.Time), ["ppm"] = Ppm(r) };
        if (r.DeviationPpm is { } deviation) node["deviation"] = deviation;
        if (r.Shown is { } shown) node["shown"] = shown;
        Text(node, "point", r.Place.Point);
        Text(node, "fixture", r.Place.Fixture);
        if (r.Place.Along is { } along) node["at"] = FileNumber.InUnit(along, unit);
        if (r.Place.OnBack) node["side"] = "back";
        node["x"] = FileNumber.InUnit(r.Place.At.X, unit);
        node["y"] = FileNumber.InUnit(r.Place.At.Y, unit);
        Text(node, "height", r.Height?.Kebab());
        Text(node, "spot", r.Spot?.Kebab());
        node["air"] = r.Air.Kebab();
        Text(node, "cooling", r.Detail?.Cooling);
        Text(node, "cover", r.Detail?.Cover);
        Text(node, "door", r.Detail?.Door);
        if (r.Detail?.SinceSeconds is { } since) node["since"] = since;
        Text(node, "gas", r.Gas);
        Text(node, "instrument", r.Instrument);
        Text(node, "note", r.Note);
        return Keep(node, r.Other);
    }

    private static JsonValue Ppm(Reading r)
    {
        var number = r.Ppm.ToString("R", CultureInfo.InvariantCulture);
        return r.Bound switch
        {
            ReadingBound.Below => JsonValue.Create("<" + number),
            ReadingBound.AtLeast => JsonValue.Create(">" + number),
            _ => JsonValue.Create(r.Ppm),
        };
    }

    private static void Text(JsonObject node, string field, string? text)
    {
        if (text is not null) node[field] = text;
    }
}
