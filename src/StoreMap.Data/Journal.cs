using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>A survey as the list shows it.</summary>
/// <param name="Id">Made by the client.</param>
/// <param name="Store">The store's id.</param>
/// <param name="Started">Start as the client's clock had it.</param>
/// <param name="Events">Events received so far.</param>
public sealed record SurveyRow(string Id, string Store, DateTimeOffset Started, int Events);

/// <summary>An event as a client sends it.</summary>
/// <param name="Id">Made by the client, unique for ever.</param>
/// <param name="Document">The event's JSON.</param>
public sealed record NewEvent(string Id, string Document);

/// <summary>An event as it was received.</summary>
/// <param name="Received">Its place in the order of receipt; a reader asks for what came after the last place it knows.</param>
/// <param name="Id">The client's id.</param>
/// <param name="Document">The event's JSON.</param>
public sealed record EventRow(long Received, string Id, string Document);

/// <summary>What became of a batch.</summary>
/// <param name="Kept">Ids now on the disk: new ones and those that were there already.</param>
/// <param name="Different">Ids known with another content; the first content stays, a person must look.</param>
public sealed record AppendResult(IReadOnlyList<string> Kept, IReadOnlyList<string> Different);

/// <summary>Surveys and their events: added to, never changed. A batch sent twice, late or out of order lands once.</summary>
public sealed class Journal(StoreDatabase database, TimeProvider clock)
{
    /// <summary>All surveys of a store, the latest first.</summary>
    public IReadOnlyList<SurveyRow> Surveys(string store) => Surveys("WHERE s.store = $key", store);

    /// <summary>One survey; null when unknown.</summary>
    public SurveyRow? Survey(string id) => Surveys("WHERE s.id = $key", id).FirstOrDefault();

    /// <summary>Adds events to a survey, made when it is new: all or nothing, on the disk when this returns.</summary>
    /// <param name="survey">The survey's id.</param>
    /// <param name="store">Its store, which must exist.</param>
    /// <param name="started">Its start.</param>
    /// <param name="events">Events in any order.</param>
    /// <param name="who">Who sends.</param>
    /// <returns>What became of each event; null when the survey is known for another store.</returns>
    public AppendResult? Append(string survey, string store, DateTimeOffset started, IReadOnlyList<NewEvent> events, string who)
    {
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        var now = Times.Text(clock.GetUtcNow());
        connection.Execute(
            "INSERT INTO surveys(id, store, started, created, created_by) VALUES ($id, $store, $started, $now, $who) ON CONFLICT(id) DO NOTHING",
            ("$id", survey), ("$store", store), ("$started", Times.Text(started)), ("$now", now), ("$who", who));
        if (connection.Read("SELECT store FROM surveys WHERE id = $id", r => r.GetString(0), ("$id", survey))[0] != store) return null;
        var kept = new List<string>();
        var different = new List<string>();
        foreach (var one in events) (Put(connection, survey, one, now, who) ? kept : different).Add(one.Id);
        transaction.Commit();
        return new AppendResult(kept, different);
    }

    /// <summary>Events of a survey in the order of receipt.</summary>
    /// <param name="survey">The survey's id.</param>
    /// <param name="after">The last place the reader knows; 0 for all.</param>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<EventRow> Events(string survey, long after = 0, int most = int.MaxValue)
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT received, id, document FROM events WHERE survey = $survey AND received > $after ORDER BY received LIMIT $most",
            r => new EventRow(r.GetInt64(0), r.GetString(1), r.GetString(2)), ("$survey", survey), ("$after", after), ("$most", most));
    }

    /// <summary>True when the event is kept with this content.</summary>
    private static bool Put(SqliteConnection connection, string survey, NewEvent one, string now, string who)
    {
        var added = connection.Execute(
            "INSERT INTO events(id, survey, document, at, sender) VALUES ($id, $survey, $document, $now, $who) ON CONFLICT(id) DO NOTHING",
            ("$id", one.Id), ("$survey", survey), ("$document", one.Document), ("$now", now), ("$who", who));
        if (added == 1) return true;
        return connection.Read(
            "SELECT 1 FROM events WHERE id = $id AND survey = $survey AND document = $document", r => r.GetInt32(0),
            ("$id", one.Id), ("$survey", survey), ("$document", one.Document)).Count == 1;
    }

    private List<SurveyRow> Surveys(string which, string key)
    {
        using var connection = database.Connect();
        return connection.Read(
            $"SELECT s.id, s.store, s.started, (SELECT count(*) FROM events e WHERE e.survey = s.id) FROM surveys s {which} ORDER BY s.started DESC, s.id",
            r => new SurveyRow(r.GetString(0), r.GetString(1), Times.Of(r.GetString(2)), r.GetInt32(3)), ("$key", key));
    }
}
