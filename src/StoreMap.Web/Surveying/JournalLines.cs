using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.Web.Surveying;

/// <summary>A survey's journal in words, as people read it.</summary>
internal static class JournalLines
{
    /// <summary>Every entry, also those taken back, the latest first.</summary>
    public static IEnumerable<string> Of(SurveySession session)
    {
        var known = session.Entries.DistinctBy(e => e.Id).ToDictionary(e => e.Id);
        return session.Entries.OrderByDescending(e => e.Time).ThenByDescending(e => e.Number)
            .Select(e => $"{Say.Date(e.Time, session.Plan)} {(e.Kind == JournalKinds.Withdraw ? TakenBack(session, known, e) : Words(session, e))}");
    }

    private static string TakenBack(SurveySession session, Dictionary<string, JournalEvent> known, JournalEvent e)
    {
        var what = Text(e, "of") is { } of && known.TryGetValue(of, out var gone) ? $"{Words(session, gone)}, of {Say.Date(gone.Time, session.Plan)}" : "an entry";
        return $"taken back ({Text(e, "reason")}): {what}";
    }

    private static string Words(SurveySession session, JournalEvent e)
    {
        var (plan, place) = (session.Plan, Place(session, e));
        return e.Kind switch
        {
            JournalKinds.Start => $"{(session.Entries.Any(o => o.Kind == JournalKinds.Start && o.Device == e.Device && o.Number < e.Number) ? "monitor given anew" : "begun")} by {Text(e, "technician")}{(e.Body["instrument"]?["range"] is { } range ? $", it shows up to {range} ppm" : "")}",
            JournalKinds.Reading => $"{place}: {e.Body["ppm"]} ppm{(Text(e, "air") is { } air and not "fans-on" ? $", {air.Replace('-', ' ')}" : "")}{(Text(e, "note") is { } said ? $", \"{said}\"" : "")}",
            JournalKinds.Skip => $"{place}: skipped, {Text(e, "reason")}",
            JournalKinds.CloseIn => $"{(Text(e, "spot") is null ? "closer points" : "one more point")} at {Tag(plan, e)}",
            JournalKinds.LeftOff => $"{Say.LeftOff(Text(e, "what") ?? "")}{(Tag(plan, e) is { } tag ? $" on {tag}" : "")}",
            JournalKinds.Restored => $"put back: {Item(session, e)}",
            JournalKinds.HandedOver => $"handed over to {Text(e, "to")}: {Item(session, e)}",
            JournalKinds.StopWork => $"work stopped at {e.Body["ppm"]} ppm {Text(e, "gas")}",
            JournalKinds.StopAnswered => "everyone is out and the place is aired",
            JournalKinds.Activity => $"{Text(e, "what")} {((bool?)e.Body["on"] == true ? "begins" : "ends")} in {PlanPlaces.RoomName(plan, Text(e, "room"))}",
            JournalKinds.Photo => $"photo{(Tag(plan, e) is { } tag ? $" of {tag}" : "")}{(Text(e, "note") is { } note ? $": {note}" : "")}",
            JournalKinds.Mark => $"walk of {Tag(plan, e)}: {Text(e, "event")}",
            JournalKinds.CheckIn => $"{((bool?)e.Body["in"] == true ? "into" : "out of")} {Tag(plan, e)}",
            JournalKinds.Panel => $"panel {Text(e, "panel")}: {((bool?)e.Body["leak"] == true ? "leak" : "nothing")}",
            JournalKinds.Close => "visit ended",
            _ => e.Kind,
        };
    }

    private static string Item(SurveySession session, JournalEvent e) =>
        session.Entries.FirstOrDefault(o => o.Id == Text(e, "item")) is { } off ? Words(session, off) : "something";

    private static string Place(SurveySession session, JournalEvent e)
    {
        if (session.Points.FirstOrDefault(p => p.Id == Text(e, "point")) is { } point)
            return point.Pass == ProbePass.Zero ? "zero" : $"{Say.Title(session.Plan, point)}{(point.Fixture is null ? "" : $", {Say.Where(session.ShownPlan, point)}")}";
        return Tag(session.Plan, e) ?? PlanPlaces.RoomName(session.Plan, Text(e, "room"));
    }

    private static string? Tag(Plan plan, JournalEvent e) => Text(e, "fixture") is { } id ? plan.FindFixture(id)?.Tag ?? id : null;

    private static string? Text(JournalEvent e, string name) => (string?)e.Body[name];
}
