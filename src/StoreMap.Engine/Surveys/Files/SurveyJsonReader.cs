using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads a survey file's JSON against its plan; every problem at once.</summary>
internal sealed class SurveyJsonReader
{
    public const string FormatName = "storemap-survey";
    public const int Major = 1;

    private const int MostReadings = 500_000;
    private static readonly string[] RootFields =
    [
        "format", "store", "layoutRevision", "units", "start", "technicians", "instruments", "protocol", "zeroed", "readings", "coverage",
        "findings",
    ];

    private readonly JsonObject root;
    private readonly Plan plan;
    private readonly ProblemList list;
    private readonly SurveyProblems problems;
    private readonly FieldReader fields;

    private SurveyJsonReader(JsonObject root, Plan plan, ProblemList list, SurveyProblems problems, LengthUnit unit)
    {
        (this.root, this.plan, this.list, this.problems) = (root, plan, list, problems);
        fields = new FieldReader(root, null, unit, list);
    }

    /// <summary>Reads the survey.</summary>
    /// <exception cref="RefusedInputException">It has errors.</exception>
    public static SurveyReadResult Read(JsonObject root, string? file, Plan plan, IReadOnlyList<ProbePoint> points)
    {
        var list = new ProblemList(file);
        if (!HeaderReader.CheckFormat(root, list, FormatName, Major, "survey")) throw new RefusedInputException(list.All);
        var unit = root["units"] is null ? plan.Units : HeaderReader.Units(root, list) ?? plan.Units;
        return new SurveyJsonReader(root, plan, list, new SurveyProblems(file), unit).Survey(points);
    }

    private SurveyReadResult Survey(IReadOnlyList<ProbePoint> points)
    {
        var store = fields.RequiredText("store", "the id of the store's layout");
        if (store is not null && store != plan.Id)
        {
            fields.Error("store", root["store"], "survey-store", $"The survey is of the store {store}, the layout of {plan.Id}. Give them together as they belong.");
        }

        var revision = fields.Whole("layoutRevision", 1, 1_000_000);
        if (revision is { } r && r != plan.Revision)
        {
            fields.Warn("layoutRevision", root["layoutRevision"], "survey-revision",
                $"The survey was taken on revision {r} of the layout; it is read on revision {plan.Revision}.");
        }

        var clock = ReadingMessages.ClockOf(plan, problems);
        var start = Start(clock);
        var instruments = new InstrumentReader(fields, list).Read();
        var places = new PlaceFinder(plan, points, fields.Unit) { KeepsPlaces = true, OtherRevision = revision != plan.Revision };
        var reader = new ReadingReader(fields, list, problems, clock, places, instruments);
        var drafts = reader.Read(fields.List("readings", MostReadings));
        var survey = new Survey
        {
            Store = plan.Id, LayoutRevision = revision, Start = start ?? default, Technicians = Texts("technicians"),
            Instruments = instruments, Readings = [], Coverage = Coverage(), Findings = Findings(), Zeroed = Zeroed(clock, instruments),
            Protocol = fields.Nested("protocol") is null ? null : Copy(root["protocol"]!.AsObject()), Other = Others(root, RootFields),
        };
        problems.Add(list.All);
        problems.ThrowIfErrors();
        survey = survey with { Readings = ReadingFinisher.Finish(drafts, instruments, problems) };
        if (survey.Readings.Count > 0 && survey.Readings[0].Time < survey.Start)
        {
            problems.Warn(null, "start", JsonExcerpt.Of(root["start"]), "survey-start", "The first reading is earlier than the start of the visit.");
        }

        return new SurveyReadResult(survey, problems.Warnings());
    }

    /// <summary>Fields that are none of ours, copied; null when there are none.</summary>
    public static JsonObject? Others(JsonObject source, string[] known)
    {
        JsonObject? others = null;
        foreach (var (name, value) in source)
        {
            if (Array.IndexOf(known, name) < 0) (others ??= [])[name] = value?.DeepClone();
        }

        return others;
    }

    private static JsonObject Copy(JsonObject source) => source.DeepClone().AsObject();

    private DateTimeOffset? Start(StoreClock clock)
    {
        if (fields.RequiredText("start", "when the visit began, with offset, such as 2026-03-04T21:00:00-06:00") is not { } text) return null;
        // A clock of its own: the order of the readings must not depend on the start.
        if (StoreClock.Of(plan.TimeZone, out _).Read(text) is var (time, _)) return clock.AtStore(time);
        ReadingMessages.Time(null, "start", text, problems);
        return null;
    }

    private List<string> Texts(string field)
    {
        var texts = new List<string>();
        foreach (var node in fields.List(field))
        {
            if (node?.GetValueKind() == JsonValueKind.String) texts.Add(node.GetValue<string>());
            else fields.WrongType(field, node, "a list of texts");
        }

        return texts;
    }

    private List<SystemCoverage> Coverage()
    {
        var coverage = new List<SystemCoverage>();
        foreach (var (item, place, node) in Items("coverage"))
        {
            var notChecked = new List<string>();
            foreach (var text in item.List("notChecked"))
            {
                if (text?.GetValueKind() == JsonValueKind.String) notChecked.Add(text.GetValue<string>());
                else item.WrongType("notChecked", text, "a list of texts");
            }

            if (item.RequiredText("system", "a system's id") is not { } system) continue;
            if (plan.Systems.All(s => s.Id != system))
            {
                problems.Warn(place, "system", system, "survey-system", "No system of this layout has this id.");
            }

            coverage.Add(new SystemCoverage(system, item.Flag("complete") ?? false, notChecked)
            {
                Other = Others(node, ["system", "complete", "notChecked"]),
            });
        }

        return coverage;
    }

    private List<SurveyFinding> Findings()
    {
        var findings = new List<SurveyFinding>();
        foreach (var (item, _, node) in Items("findings"))
        {
            if (item.RequiredText("id", "the finding's id") is not { } id) continue;
            findings.Add(new SurveyFinding
            {
                Id = id, Fixture = item.Text("fixture"), Equipment = item.Text("equipment"),
                Along = item.Length("at", 0, LayoutLimits.FixtureMost), Note = item.Text("note"),
                Other = Others(node, ["id", "fixture", "equipment", "at", "note"]),
            });
        }

        return findings;
    }

    private List<ZeroEvent> Zeroed(StoreClock clock, IReadOnlyList<Instrument> instruments)
    {
        var events = new List<ZeroEvent>();
        foreach (var (item, place, _) in Items("zeroed"))
        {
            var instrument = item.Text("instrument");
            if (instrument is not null && instruments.All(i => i.Id != instrument))
            {
                problems.Error(place, "instrument", instrument, "survey-instrument", "No instrument of this survey has this id.");
            }

            if (item.RequiredText("time", "when the monitor was zeroed") is not { } text) continue;
            if (clock.Read(text) is var (time, _)) events.Add(new ZeroEvent(time, instrument));
            else ReadingMessages.Time(place, "time", text, problems);
        }

        return [.. events.OrderBy(e => e.Time)];
    }

    private IEnumerable<(FieldReader Item, string Place, JsonObject Node)> Items(string field)
    {
        var index = 0;
        foreach (var node in fields.List(field))
        {
            var place = $"{field}[{(index++).ToString(CultureInfo.InvariantCulture)}]";
            if (node is JsonObject map) yield return (new FieldReader(map, place, fields.Unit, list), place, map);
            else fields.WrongType(place, node, "an object in curly brackets");
        }
    }
}
