namespace StoreMap.Data;

/// <summary>One entry in the story of a finding.</summary>
/// <param name="Id">Made by the client.</param>
/// <param name="Finding">The finding's id, unique in the store.</param>
/// <param name="Document">The entry's JSON.</param>
/// <param name="At">When it was received.</param>
/// <param name="Sender">Who sent it.</param>
public sealed record FindingEntryRow(string Id, string Finding, string Document, DateTimeOffset At, string Sender);

/// <summary>Findings of a store: entries added to, never changed, with who and when. The entries are the trail of what was said.</summary>
public sealed class Findings(StoreDatabase database, TimeProvider clock)
{
    /// <summary>All entries of a store in the order of receipt.</summary>
    public IReadOnlyList<FindingEntryRow> Of(string store)
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT id, finding, document, at, sender FROM finding_entries WHERE store = $store ORDER BY received",
            r => new FindingEntryRow(r.GetString(0), r.GetString(1), r.GetString(2), Times.Of(r.GetString(3)), r.GetString(4)), ("$store", store));
    }

    /// <summary>Adds an entry; a second time with the same content does nothing.</summary>
    /// <param name="store">A store that exists.</param>
    /// <param name="id">The entry's id, made by the client.</param>
    /// <param name="finding">The finding's id.</param>
    /// <param name="document">The entry's JSON.</param>
    /// <param name="who">Who says so.</param>
    /// <returns>False when the id is known with another content.</returns>
    public bool Add(string store, string id, string finding, string document, string who)
    {
        using var connection = database.Connect();
        var added = connection.Execute(
            "INSERT INTO finding_entries(id, store, finding, document, at, sender) VALUES ($id, $store, $finding, $document, $now, $who) ON CONFLICT(id) DO NOTHING",
            ("$id", id), ("$store", store), ("$finding", finding), ("$document", document), ("$now", Times.Text(clock.GetUtcNow())), ("$who", who));
        return added == 1 || connection.Read(
            "SELECT 1 FROM finding_entries WHERE id = $id AND store = $store AND finding = $finding AND document = $document", r => r.GetInt32(0),
            ("$id", id), ("$store", store), ("$finding", finding), ("$document", document)).Count == 1;
    }
}
