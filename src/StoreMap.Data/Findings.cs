using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>One event of a store's service journal as it was received.</summary>
/// <param name="Received">Its place in the order of receipt.</param>
/// <param name="Id">Made by the client.</param>
/// <param name="Document">The event's JSON.</param>
/// <param name="At">When it was received.</param>
/// <param name="Sender">Who sent it.</param>
public sealed record FindingEntryRow(long Received, string Id, string Document, DateTimeOffset At, string Sender);

/// <summary>An event as a client sends it.</summary>
/// <param name="Id">Made by the client, unique for ever.</param>
/// <param name="Finding">The finding it is about; empty for none.</param>
/// <param name="Document">The event's JSON.</param>
public sealed record NewFindingEntry(string Id, string Finding, string Document);

/// <summary>The service journals of stores: added to, never changed, with who and when. The entries are the trail of what was said.</summary>
public sealed class Findings(StoreDatabase database, TimeProvider clock)
{
    /// <summary>Entries of a store in the order of receipt.</summary>
    /// <param name="store">The store's id.</param>
    /// <param name="after">The last place the reader knows; 0 for all.</param>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<FindingEntryRow> Of(string store, long after = 0, int most = int.MaxValue)
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT received, id, document, at, sender FROM finding_entries WHERE store = $store AND received > $after ORDER BY received LIMIT $most",
            r => new FindingEntryRow(r.GetInt64(0), r.GetString(1), r.GetString(2), Times.Of(r.GetString(3)), r.GetString(4)), ("$store", store), ("$after", after), ("$most", most));
    }

    /// <summary>Adds entries: all or nothing, on the disk when this returns. A second time with the same content does nothing.</summary>
    /// <param name="store">A store that exists.</param>
    /// <param name="entries">In any order.</param>
    /// <param name="who">Who sends.</param>
    /// <returns>What became of each.</returns>
    public AppendResult Append(string store, IReadOnlyList<NewFindingEntry> entries, string who)
    {
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        var now = Times.Text(clock.GetUtcNow());
        var kept = entries.ToLookup(e => Put(connection, store, e, now, who), e => e.Id);
        transaction.Commit();
        return new AppendResult([.. kept[true]], [.. kept[false]]);
    }

    private static bool Put(SqliteConnection connection, string store, NewFindingEntry one, string now, string who)
    {
        var added = connection.Execute(
            "INSERT INTO finding_entries(id, store, finding, document, at, sender) VALUES ($id, $store, $finding, $document, $now, $who) ON CONFLICT(id) DO NOTHING",
            ("$id", one.Id), ("$store", store), ("$finding", one.Finding), ("$document", one.Document), ("$now", now), ("$who", who));
        return added == 1 || connection.Read(
            "SELECT 1 FROM finding_entries WHERE id = $id AND store = $store AND document = $document", r => r.GetInt32(0),
            ("$id", one.Id), ("$store", store), ("$document", one.Document)).Count == 1;
    }
}
