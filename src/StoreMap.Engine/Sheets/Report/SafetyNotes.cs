using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>Is it safe? In words, for page one, the map, and the papers that a technician holds at a case.</summary>
internal static class SafetyNotes
{
    /// <summary>Gas over the limit this near a leak's place is warned of there too, metres: it gathers under the ends of joined cases.</summary>
    private const double BesideMetres = 3;

    /// <summary>What is wrong where staff reach in comes first; then the highest reading in the air that people breathe beside the exposure
    /// limit, in one sentence.</summary>
    public static IEnumerable<FlowItem> Safety(Plan plan, NetSurvey net, Words words, int most)
    {
        yield return NoteItems.Heading(words["report.safe"]);
        var verdict = SafetyVerdict.Of(plan, net);
        foreach (var text in ReachIn(plan, verdict, words, most)) yield return new TextItem(text, SheetStyle.SmallBold) { After = 0.8 };
        yield return Breathed(plan, verdict, words);
        if (verdict.Breathed == SafetyLevel.Under && verdict.NotRead.Count > 0)
        {
            yield return NoteItems.Line(words.Say("safe.not-read", Listing.Of([.. verdict.NotRead.Select(id => PlaceWords.Room(plan, words, id))], 2 * most, words)), 0.8);
        }

        if (verdict.ReachIn.Count == 0 && verdict.HighestAtCase is { } inside)
        {
            yield return NoteItems.Line(words.Say("safe.inside", Level(inside, words), CompareNotes.Tag(plan, inside.Reading.Place.Fixture!)), 0.8);
        }
    }

    /// <summary>The prohibition for all cases whose readings call for one; empty where none does.</summary>
    public static IEnumerable<string> ReachIn(Plan plan, SafetyVerdict verdict, Words words, int most)
    {
        if (verdict.ReachIn.Count > 0) yield return words.Say("safe.reach-in", Listing.Of([.. verdict.ReachIn.Select(r => ReachInPlace(plan, r, words))], most, words));
    }

    /// <summary>The prohibition for one case, for the papers that a technician holds at it; empty where its readings call for none.</summary>
    public static IEnumerable<FlowItem> ReachInAt(Plan plan, NetSurvey net, Fixture fixture, PlanPoint at, Words words)
    {
        var over = SafetyVerdict.Of(plan, net).ReachIn;
        if (over.FirstOrDefault(r => r.Reading.Reading.Place.Fixture == fixture.Id) is { } own)
        {
            yield return NoteItems.Caution(words.Say("safe.reach-in", words.Say(own.Reading.Reading.Air == AirState.FansOff ? "safe.here-still" : "safe.here", Level(own.Reading, words), Limit(own, words))));
        }
        else if (over.FirstOrDefault(r => r.Reading.Reading.Place.At.DistanceTo(at) < BesideMetres) is { } beside)
        {
            yield return NoteItems.Caution(words.Say("safe.reach-in", ReachInPlace(plan, beside, words)));
        }
    }

    private static string ReachInPlace(Plan plan, LimitReading r, Words words) => words.Say(
        r.Reading.Reading.Air == AirState.FansOff ? "safe.reading-at-still" : "safe.reading-at", CompareNotes.Tag(plan, r.Reading.Reading.Place.Fixture!), LevelAt(r.Reading, words), Limit(r, words));

    // Gas at the leak itself is thicker than in the air about it.
    private static string LevelAt(NetReading r, Words words) => Level(r, words) + (r.Reading.Spot == Spot.Joint ? words["safe.at-joint"] : "");

    private static string Limit(LimitReading r, Words words) =>
        double.IsFinite(r.LimitPpm) ? words.Say("safe.limit", Numbers.Whole(r.LimitPpm), r.Gas ?? "") : words["safe.no-limit"];

    private static TextItem Breathed(Plan plan, SafetyVerdict verdict, Words words)
    {
        if (verdict.LimitPpm is null && verdict.Breathed != SafetyLevel.Over) return new TextItem(words["safe.unknown-limit"], SheetStyle.SmallBold) { After = 0.8 };
        if (verdict.Breathed == SafetyLevel.Over && verdict.Highest is null) return new TextItem(words["safe.over-no-limit"], SheetStyle.SmallBold) { After = 0.8 };
        if (verdict.Highest is not { } highest) return new TextItem(words.Say("safe.unknown", Numbers.Whole(verdict.LimitPpm ?? 0)), SheetStyle.SmallBold) { After = 0.8 };
        var text = words.Say(verdict.Breathed == SafetyLevel.Over ? "safe.over" : "safe.under", Level(highest.Reading, words), PlaceOf(plan, highest.Reading, words), Numbers.Whole(highest.LimitPpm), highest.Gas ?? "");
        return new TextItem(text, verdict.Breathed == SafetyLevel.Over ? SheetStyle.SmallBold : SheetStyle.Small) { After = 0.8 };
    }

    /// <summary>A level as shown, with "over" or "under" where the monitor could only say that.</summary>
    public static string Level(NetReading r, Words words) => r.Reading.Bound switch
    {
        ReadingBound.AtLeast => words.Say("safe.level-over", Numbers.Ppm(r.Reading.Ppm)),
        ReadingBound.Below => words.Say("safe.level-under", Numbers.Ppm(r.Reading.Ppm)),
        _ => words.Say("safe.level", Numbers.Ppm(r.Reading.Ppm)),
    };

    /// <summary>Where a reading of a room's air was taken.</summary>
    public static string PlaceOf(Plan plan, NetReading r, Words words) =>
        r.Reading.Place.Fixture is { } id ? CompareNotes.Tag(plan, id) : PlaceWords.Room(plan, words, r.Reading.Place.Room);
}
