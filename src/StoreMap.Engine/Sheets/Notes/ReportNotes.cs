using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The plain words of a report's first page.</summary>
internal static class ReportNotes
{
    private static readonly string[] Terms = ["above-room", "zone", "no-leak-seen", "strength", "no-longer-seen", "survey"];

    private static readonly string[] Signers = ["report.sign-technician", "report.sign-store"];

    /// <summary>The highest reading in the air that people breathe beside the exposure limit, in one sentence. Readings inside cases and at joints are of air
    /// that nobody breathes and are told apart.</summary>
    public static IEnumerable<FlowItem> Safety(Plan plan, NetSurvey net, Words words)
    {
        yield return NoteItems.Heading(words["report.safe"]);
        var limit = plan.Systems.Select(s => Refrigerant.Find(s.Refrigerant)).OfType<Refrigerant>().Select(r => r.ExposureLimitPpm).DefaultIfEmpty(1000).Min();
        var breathed = net.Readings.Where(r => r.Reading.Place.Fixture is null || plan.FindFixture(r.Reading.Place.Fixture)?.Kind == FixtureKind.WalkIn).ToList();
        var highest = breathed.Select(r => r.Reading.Ppm).DefaultIfEmpty(0).Max();
        var over = breathed.Any(r => r.Reading.Bound == ReadingBound.AtLeast) || highest >= limit;
        yield return NoteItems.Line(words.Say(over ? "report.over" : "report.under", Numbers.Ppm(highest), Numbers.Whole(limit)), 1);
        var inside = net.Readings.Except(breathed).OrderByDescending(r => r.Reading.Ppm).FirstOrDefault();
        if (inside is not null && plan.FindFixture(inside.Reading.Place.Fixture) is { } fixture)
        {
            var ppm = (inside.Reading.Bound == ReadingBound.AtLeast ? words["report.over-range"] + " " : "") + Numbers.Ppm(inside.Reading.Ppm);
            yield return NoteItems.Line(words.Say("report.inside", ppm, PlaceWords.Case(fixture)), 1);
        }
    }

    /// <summary>What we do first and what we need from the store.</summary>
    public static IEnumerable<FlowItem> Next(Plan plan, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["report.next"]);
        if (located.Open.Count > 0)
        {
            yield return NoteItems.Line(words.Say("report.open", string.Join(", ", located.Open.Take(5).Select(id => PlaceWords.Panel(plan, words, id)))));
            var cases = located.Zones.Select(z => plan.FindFixture(z.Fixture)).OfType<Fixture>().Distinct().Select(PlaceWords.Case);
            yield return NoteItems.Line(words.Say("report.need", string.Join(", ", cases)));
        }
        else
        {
            yield return NoteItems.Line(words["report.nothing-to-open"]);
        }
    }

    /// <summary>What was not checked, and what kind of survey this is.</summary>
    public static IEnumerable<FlowItem> NotChecked(Plan plan, NetSurvey net, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["report.not-checked"]);
        var equipment = plan.Equipment.Select(e => $"{e.Id} ({e.Kind.Kebab()})").ToList();
        if (equipment.Count > 0) yield return NoteItems.Bullet(words.Say("report.equipment", string.Join(", ", equipment)));
        var fixtures = located.NotProbed.Select(id => plan.FindFixture(id)?.Tag ?? id).ToList();
        if (fixtures.Count > 0) yield return NoteItems.Bullet(words.Say("report.fixtures", string.Join(", ", fixtures)));
        var complete = net.Survey.Coverage.Count > 0 && plan.Systems.All(s => net.Survey.Coverage.Any(c => c.System == s.Id && c.Complete));
        yield return NoteItems.Line(words[complete ? "report.complete" : "report.leak-survey"], 1);
    }

    /// <summary>A place to sign.</summary>
    public static IEnumerable<FlowItem> Signature(Words words)
    {
        yield return NoteItems.Gap(12);
        yield return new DrawnItem(9, (svg, at, width) =>
        {
            foreach (var (i, key) in Signers.Index())
            {
                var x = at.X + (i * width / 2);
                svg.Line(new(x, at.Y + 4), new(x + (width / 2) - 8, at.Y + 4), Paint.Line(SheetStyle.Narrow));
                svg.Text(new(x, at.Y + 8), words[key], SheetStyle.Small);
            }
        });
    }

    /// <summary>What the report's words mean.</summary>
    public static IEnumerable<FlowItem> Definitions(Words words) =>
        Terms.Select(t => NoteItems.Bullet(words["define." + t])).Prepend(NoteItems.Heading(words["define.heading"]));
}
