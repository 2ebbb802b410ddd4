namespace StoreMap.Data;

/// <summary>A store as the list shows it.</summary>
/// <param name="Id">The layout's id.</param>
/// <param name="Name">The store's name.</param>
/// <param name="Version">The latest layout's version, counted from 1.</param>
public sealed record StoreRow(string Id, string Name, int Version);

/// <summary>A saved layout.</summary>
/// <param name="Store">The store's id.</param>
/// <param name="Version">Counted from 1 in this database; not the layout's own revision.</param>
/// <param name="Document">The layout file's text.</param>
/// <param name="Saved">When.</param>
/// <param name="SavedBy">By whom.</param>
public sealed record LayoutRow(string Store, int Version, string Document, DateTimeOffset Saved, string SavedBy);

/// <summary>Stores and every version of their layouts. A save names the version it was made from; someone else's later one is never
/// overwritten.</summary>
public sealed class Layouts(StoreDatabase database, TimeProvider clock)
{
    /// <summary>All stores by name.</summary>
    public IReadOnlyList<StoreRow> Stores()
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT s.id, s.name, max(l.version) FROM stores s JOIN layouts l ON l.store = s.id GROUP BY s.id ORDER BY s.name, s.id",
            r => new StoreRow(r.GetString(0), r.GetString(1), r.GetInt32(2)));
    }

    /// <summary>The latest layout of a store; null when there is none.</summary>
    public LayoutRow? Latest(string store) => One(store, "ORDER BY version DESC LIMIT 1", 0);

    /// <summary>One version of a store's layout; null when there is none.</summary>
    public LayoutRow? At(string store, int version) => One(store, "AND version = $version", version);

    /// <summary>Saves a layout as the next version.</summary>
    /// <param name="store">The store's id.</param>
    /// <param name="name">Its name.</param>
    /// <param name="document">The layout file's text, checked by the caller.</param>
    /// <param name="madeFrom">The version it was made from; 0 for a new store.</param>
    /// <param name="who">Who saves.</param>
    /// <returns>The version saved; null when the store's latest version is another one.</returns>
    public LayoutRow? Save(string store, string name, string document, int madeFrom, string who)
    {
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        var now = clock.GetUtcNow();
        connection.Execute(
            "INSERT INTO stores(id, name, created) VALUES ($id, $name, $now) ON CONFLICT(id) DO NOTHING",
            ("$id", store), ("$name", name), ("$now", Times.Text(now)));
        var latest = connection.Read("SELECT coalesce(max(version), 0) FROM layouts WHERE store = $store", r => r.GetInt32(0), ("$store", store))[0];
        if (latest != madeFrom) return null;
        connection.Execute("UPDATE stores SET name = $name WHERE id = $id", ("$id", store), ("$name", name));
        connection.Execute(
            "INSERT INTO layouts(store, version, document, saved, saved_by) VALUES ($store, $version, $document, $now, $who)",
            ("$store", store), ("$version", latest + 1), ("$document", document), ("$now", Times.Text(now)), ("$who", who));
        transaction.Commit();
        return new LayoutRow(store, latest + 1, document, now, who);
    }

    private LayoutRow? One(string store, string which, int version)
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT store, version, document, saved, saved_by FROM layouts WHERE store = $store " + which,
            r => new LayoutRow(r.GetString(0), r.GetInt32(1), r.GetString(2), Times.Of(r.GetString(3)), r.GetString(4)),
            ("$store", store), ("$version", version)).FirstOrDefault();
    }
}
