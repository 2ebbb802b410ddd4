using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Reads one entry of a service record.</summary>
internal sealed class ServiceEntryReader(Plan? plan)
{
    private const int LongestId = 64;

    private static readonly string[] TestKinds = ["initial", "follow-up"];

    private readonly Dictionary<string, string> places = new(StringComparer.Ordinal);

    /// <summary>The entry; null, with errors, when something required is missing or wrong.</summary>
    public ServiceEntry? Read(FieldReader item)
    {
        var finding = item.RequiredText("finding", "the finding's id");
        if (finding?.Length > LongestId) item.Error("finding", item["finding"], "text-length", $"A finding's id has at most {LongestId} characters.");
        var date = ServiceRecordReader.Date(item, "date");
        var status = item.RequiredWord<FindingStatus>("status");
        var named = item.Text("fixture");
        var fixture = Fixture(item, named);
        var equipment = Equipment(item);
        CheckPlace(item, finding, fixture?.Id ?? named, equipment);
        var tests = Tests(item);
        var entry = new ServiceEntry
        {
            Finding = finding ?? "", Date = date ?? default, Status = status ?? default,
            Fixture = fixture?.Id ?? named, Equipment = equipment, Section = Section(item, fixture), Along = Along(item, fixture),
            Spot = item.Text("spot"), Component = item.Text("component"), Fault = item.Text("fault"), Pinpointed = item.Text("pinpointed"),
            Repair = item.Text("repair"), Tests = tests, WorkOrder = item.Text("workOrder"), Technician = item.Text("technician"),
            Certificate = item.Text("certificate"), Note = item.Text("note"),
        };
        return finding is null || date is null || status is null ? null : entry;
    }

    // By id, or by the tag the store calls it when that names one fixture.
    private Fixture? Fixture(FieldReader item, string? name)
    {
        if (plan is null || name is null) return null;
        if (plan.FindFixture(name) is { } found) return found;
        var tagged = plan.Fixtures.Where(f => string.Equals(f.Tag, name, StringComparison.OrdinalIgnoreCase)).ToList();
        if (tagged.Count == 1) return tagged[0];
        item.Error("fixture", item["fixture"], "reference", tagged.Count == 0
            ? $"The layout has no fixture {name}; name one by its id or tag."
            : $"The tag {name} stands for {tagged.Count} fixtures ({string.Join(", ", tagged.Select(f => f.Id))}); name one by its id.");
        return null;
    }

    private string? Equipment(FieldReader item)
    {
        var name = item.Text("equipment");
        if (name is not null && plan is not null && plan.Equipment.All(e => e.Id != name))
            item.Error("equipment", item["equipment"], "reference", $"The layout has no equipment {name}; name one by its id.");
        return name;
    }

    private void CheckPlace(FieldReader item, string? finding, string? fixture, string? equipment)
    {
        if (fixture is not null && equipment is not null)
            item.Error("equipment", item["equipment"], "one-place", "The entry names a fixture and equipment; a finding has one place. Make two findings.");
        var place = fixture ?? equipment;
        if (finding is null || item["fixture"] is null && item["equipment"] is null && places.ContainsKey(finding)) return;
        if (place is null)
        {
            if (item["fixture"] is null && item["equipment"] is null)
                item.Error("fixture", null, "required", "The first entry of a finding names its fixture or equipment; this one names neither.");
            return;
        }

        if (!places.TryAdd(finding, place) && places[finding] != place)
            item.Error("fixture", item["fixture"] ?? item["equipment"], "finding-moved", $"Finding {finding} began at {places[finding]} and can't move to {place}; give the new place a finding of its own.");
    }

    private static int? Section(FieldReader item, Fixture? fixture)
    {
        var number = item.Whole("section", 1, 1000);
        if (number is null || fixture is null || fixture.Sections.Any(s => s.Number == number)) return number;
        item.Error("section", item["section"], "section", $"{fixture.Tag} has {fixture.Sections.Count} sections; sections are numbered from the front's first point.");
        return null;
    }

    private static double? Along(FieldReader item, Fixture? fixture)
    {
        var along = item.Length("at", -LayoutLimits.Slack, LayoutLimits.FixtureMost);
        if (along is null || fixture is null) return along;
        if (fixture.Front is null)
        {
            item.Error("at", item["at"], "front", $"{fixture.Tag} has no front, so no distance along it; leave at out and say the spot.");
            return null;
        }

        if (along <= fixture.Front.Length + LayoutLimits.Slack) return Math.Clamp(along.Value, 0, fixture.Front.Length);
        item.Error("at", item["at"], "number-range", $"{fixture.Tag} is {Say.Length(fixture.Front.Length, item.Unit)} long; the distance runs from its front's first point.");
        return null;
    }

    private static List<VerificationTest> Tests(FieldReader item)
    {
        List<VerificationTest> tests = [];
        var nodes = item.List("tests", 200);
        for (var i = 0; i < nodes.Count; i++)
        {
            if (item.NestedOf($"tests[{i}]", nodes[i]) is not { } test) continue;
            var date = ServiceRecordReader.Date(test, "date");
            var kind = test.RequiredText("kind", "initial or follow-up");
            var method = test.RequiredText("method", "such as bubble, electronic or pressure");
            if (kind is not null && !TestKinds.Contains(kind))
                test.Error("kind", test["kind"], "word", $"{kind} is not known here; allowed are: {string.Join(", ", TestKinds)}.");
            var passed = test.Require("passed", "true or false") ? test.Flag("passed") : null;
            if (date is not null && kind is not null && method is not null && passed is not null)
                tests.Add(new VerificationTest(date.Value, kind, method, passed.Value));
        }

        return tests;
    }
}
