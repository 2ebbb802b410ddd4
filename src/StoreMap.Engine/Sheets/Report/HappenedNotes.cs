using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>What happened at a visit: what was not put back and who has it in hand, where work stopped, what went on in rooms, what was noted with a reading and without.</summary>
internal static class HappenedNotes
{
    private const int MostLeftOff = 6;

    /// <summary>Things not put back that page one names before the list of them is cut: whoever sees to them needs them.</summary>
    private const int MostPutBack = 4;

    private const int MostStops = 6;
    private const int MostActivities = 8;
    private const int MostNotes = 10;
    private const int MostFreeNotes = 20;

    /// <summary>The section; nothing where nothing happened.</summary>
    public static IEnumerable<FlowItem> Items(Plan plan, NetSurvey net, VisitAccount? account, Words words)
    {
        string More(int rest) => words.Say("gaps.more", rest);
        List<FlowItem> items =
        [
            .. CutLines.Bullets([.. LeftOff(plan, net, account, words)], MostLeftOff, More), .. CutLines.Bullets([.. Stops(plan, net, account, words)], MostStops, More),
            .. CutLines.Bullets([.. Activities(plan, net, account, words)], MostActivities, More),
            .. CutLines.Bullets([.. Notes(plan, net, account, words)], MostNotes, More),
            .. CutLines.Bullets([.. FreeNotes(plan, net, account, words)], MostFreeNotes, rest => words.Say("note.more", rest)),
        ];
        return items.Count == 0 ? [] : [NoteItems.Heading(words["report.happened"]), .. items, NoteItems.Gap(4)];
    }

    /// <summary>What the store is asked to see to: what was not put back, or only how much.</summary>
    public static IEnumerable<string> PutBack(Plan plan, VisitAccount? account, Words words, bool brief)
    {
        if (account is not { LeftOff.Count: > 0 }) return [];
        if (brief) return [words.Say("report.put-back-count", account.LeftOff.Count)];
        var items = account.LeftOff.Select(i => i.Ended is null
            ? words.Say("report.put-back-open", Thing(plan, i, words), words.LeftOff(i.What))
            : words.Say("report.put-back-by", Thing(plan, i, words), words.LeftOff(i.What), Person(i, words))).ToList();
        return [words.Say("report.put-back", Listing.Of(items, MostPutBack, words))];
    }

    private static IEnumerable<CutLine> LeftOff(Plan plan, NetSurvey net, VisitAccount? account, Words words) => (account?.LeftOff ?? []).Select(i => new CutLine(Words.Sentence(
        i.Ended is { } ended
            ? words.Say("left.handed-over", Thing(plan, i, words), words.LeftOff(i.What), Moment(net, i.Since), Person(i, words), Moment(net, ended))
            : words.Say("left.open", Thing(plan, i, words), words.LeftOff(i.What), Moment(net, i.Since)))));

    private static IEnumerable<CutLine> Stops(Plan plan, NetSurvey net, VisitAccount? account, Words words) => (account?.Stops ?? []).Select(s =>
    {
        var gas = string.Join(words["survey.or"], s.Work.Gas.Split(" or ").Select(g => Refrigerant.Find(g) is null ? words.Remark(g) : g));
        var place = s.Place is { } at ? PlaceOf(plan, account!, at, words) : words["left.store"];
        var after = (s.Work.Aired, s.Work.WentOn) switch
        {
            ({ } aired, true) => words.Say("stop.aired", Moment(net, aired)),
            ({ } aired, false) => words.Say("stop.aired-ended", Moment(net, aired)),
            (null, true) => words["stop.went-on"],
            _ => words["stop.ended"],
        };
        var text = words.Say("stop.at", Moment(net, s.Work.Time), place, (s.Work.IsOverRange ? "≥" : "") + Numbers.Ppm(s.Work.Ppm), Listing.Typed(gas), words[s.Work.Level == StopLevel.Out ? "stop.out" : "stop.leave"], after);
        return new CutLine(text);
    });

    /// <summary>What a monitor may have reacted to that is no leak.</summary>
    private static IEnumerable<CutLine> Activities(Plan plan, NetSurvey net, VisitAccount? account, Words words) => (account?.Activities ?? []).Select(a => new CutLine(Words.Sentence(
        a.Until is { } until
            ? words.Say("activity.from-to", PlaceWords.Room(plan, words, a.Room), words.Activity(a.What), Moment(net, a.Since), Moment(net, until))
            : words.Say("activity.from", PlaceWords.Room(plan, words, a.Room), words.Activity(a.What), Moment(net, a.Since)))));

    /// <summary>Notes typed with readings; those at hits are kept before others.</summary>
    private static IEnumerable<CutLine> Notes(Plan plan, NetSurvey net, VisitAccount? account, Words words) => net.Readings.Where(r => !string.IsNullOrWhiteSpace(r.Reading.Note))
        .Select(r => new CutLine(words.Say("gaps.note", PlaceOf(plan, account, r.Reading.Place, words), Number(r, words), Listing.Typed(r.Reading.Note!)), First: r.IsHit));

    /// <summary>Notes of their own, and those with photos.</summary>
    private static IEnumerable<CutLine> FreeNotes(Plan plan, NetSurvey net, VisitAccount? account, Words words) => (account?.Notes ?? []).Select(n =>
    {
        var place = n.Note.Panel is { } panel ? PlaceWords.Panels(plan, words, [panel])[0] : n.Place is { } at ? PlaceOf(plan, account, at, words) : words["left.store"];
        return new CutLine(words.Say(n.Note.WithPhoto ? "note.photo" : "note.free", Moment(net, n.Note.Time), place, Listing.Typed(n.Note.Text)));
    });

    private static string Number(NetReading r, Words words) => !r.HitOnly ? SafetyNotes.Level(r, words) : words[r.IsHit ? "reading.hit-only" : "gaps.no-hit"];

    private static string PlaceOf(Plan plan, VisitAccount? account, ReadingPlace place, Words words)
    {
        if (place.Point is { } id && account?.Points.FirstOrDefault(p => p.Id == id) is { } point) return PlaceWords.Of(plan, words, point);
        if (place.Fixture is null) return PlaceWords.RoomAir(plan, words, place.Room);
        return plan.FindFixture(place.Fixture) is { } fixture ? PlaceWords.At(plan, words, fixture, place.Along, place.OnBack) : place.Fixture;
    }

    private static string Thing(Plan plan, LeftOffItem item, Words words) => item.Fixture is { } id ? CompareNotes.Tag(plan, id) : words["left.store"];

    private static string Person(LeftOffItem item, Words words) => string.IsNullOrWhiteSpace(item.HandedTo) ? words["left.someone"] : Listing.Typed(item.HandedTo);

    // A visit may run on past midnight, and what was left off be handed over on another day.
    private static string Moment(NetSurvey net, DateTimeOffset time) => time.Date == net.Survey.Start.Date ? Days.Clock(time) : $"{Days.Of(time)} {Days.Clock(time)}";
}
