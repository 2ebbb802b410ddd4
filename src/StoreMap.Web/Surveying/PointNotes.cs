using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Surveying;

/// <summary>What is noted of the current point beside its reading.</summary>
internal static class PointNotes
{
    /// <summary>Passes the point over.</summary>
    public static async Task Skip(this SurveySession session, string reason)
    {
        if (session.Current is not { } point) return;
        var place = Say.Place(session.ShownPlan, point);
        await session.Note(JournalKinds.Skip, new JsonObject { ["point"] = point.Id, ["reason"] = reason }, ($"{place}: skipped, {reason}", $"{place} skipped"), point);
        session.GoOnFrom(point);
    }

    /// <summary>Adds closer points around it, as the next to be probed.</summary>
    public static async Task CloseIn(this SurveySession session)
    {
        if (session.Current is not { Fixture: { } fixture } point) return;
        await session.Note(JournalKinds.CloseIn, Place(session, fixture, point.Along ?? 0), ("Closer points added around here", "closer points"), point);
        session.GoTo(session.Points.FirstOrDefault(p => p.Pass == ProbePass.CloseIn && p.Fixture == fixture && session.Shown(p.Id) is null) ?? point);
    }

    /// <summary>Adds the point where the next reading tells most, unless it is one already, and goes there.</summary>
    public static async Task Probe(this SurveySession session, NextLine next)
    {
        if (session.Plan.FindFixture(next.Fixture) is not { Front: not null } fixture || KebabNames.Parse<Spot>(next.Spot) is not { } spot) return;
        var point = ProbePlanner.CloseInAt(session.Plan, fixture, next.Along, spot, new Protocol());
        if (session.Points.All(p => p.Id != point.Id))
        {
            var body = Place(session, fixture.Id, next.Along);
            body["spot"] = next.Spot;
            await session.Note(JournalKinds.CloseIn, body, ("One more point added", "one more point"), session.Current);
        }

        session.GoTo(session.Points.FirstOrDefault(p => p.Id == point.Id) ?? session.Current);
    }

    /// <summary>Keeps a photo of it, together with the entry that tells of it.</summary>
    /// <param name="session">The survey.</param>
    /// <param name="input">The file input it was chosen in.</param>
    /// <param name="note">May be empty.</param>
    /// <returns>What is wrong with the picture; nothing when it is kept.</returns>
    public static async Task<string> Photo(this SurveySession session, string input, string note)
    {
        if (await Browser.PreparePhoto(input) is { Length: > 0 } wrong) return wrong;
        var (photo, at) = (session.NewId(), session.Current);
        var body = new JsonObject { ["photo"] = photo };
        if (at?.Id is { } point) body["point"] = point;
        if (at?.Fixture is { } fixture) body["fixture"] = fixture;
        if (!string.IsNullOrWhiteSpace(note)) body["note"] = note.Trim();
        var of = $"Photo of {(at is null ? "the store" : Say.Title(session.Plan, at))}";
        await session.Note(JournalKinds.Photo, body, ($"{of} kept on this device", of), at, e => Browser.KeepPhoto(photo, e.Id, e.Survey, e.Write()));
        return "";
    }

    private static JsonObject Place(SurveySession session, string fixture, double along) =>
        new() { ["fixture"] = fixture, ["at"] = Math.Round(session.Plan.Units.FromMetres(along), 3) };
}
