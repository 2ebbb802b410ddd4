namespace StoreMap.Data;

/// <summary>What became of a photo that was sent.</summary>
public enum PhotoKept
{
    /// <summary>It is on the disk, now or since before.</summary>
    Kept,

    /// <summary>The id is known with another picture, which stays.</summary>
    Different,

    /// <summary>Its survey or store is not here yet.</summary>
    NoOwner,

    /// <summary>The survey or store has as many as it may.</summary>
    TooMany,
}

/// <summary>What a photo belongs to.</summary>
public enum PhotoOwner
{
    /// <summary>A survey.</summary>
    Survey,

    /// <summary>A store: the photos of its findings.</summary>
    Store,
}

/// <summary>Photos of surveys and of stores' findings: added, never changed.</summary>
public sealed class Photos(StoreDatabase database, TimeProvider clock)
{
    /// <summary>Most photos of one survey.</summary>
    public const int MostOfASurvey = 300;

    /// <summary>Most photos of one store's findings.</summary>
    public const int MostOfAStore = 3000;

    /// <summary>Adds a photo; the same sent again does nothing.</summary>
    /// <param name="kind">What it belongs to.</param>
    /// <param name="owner">Id of that.</param>
    /// <param name="id">Made by the client, unique for ever.</param>
    /// <param name="image">A JPEG, already looked at.</param>
    /// <param name="who">Who sends.</param>
    public PhotoKept Add(PhotoOwner kind, string owner, string id, byte[] image, string who)
    {
        var (table, column, owners, most) = Place(kind);
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        if (connection.Read($"SELECT 1 FROM {owners} WHERE id = $owner", r => r.GetInt32(0), ("$owner", owner)).Count == 0) return PhotoKept.NoOwner;
        var known = connection.Read($"SELECT {column} = $owner AND image = $image FROM {table} WHERE id = $id", r => r.GetBoolean(0), ("$owner", owner), ("$image", image), ("$id", id));
        if (known.Count > 0) return known[0] ? PhotoKept.Kept : PhotoKept.Different;
        if (connection.Read($"SELECT count(*) FROM {table} WHERE {column} = $owner", r => r.GetInt32(0), ("$owner", owner))[0] >= most) return PhotoKept.TooMany;
        connection.Execute(
            $"INSERT INTO {table}(id, {column}, image, at, sender) VALUES ($id, $owner, $image, $now, $who)",
            ("$id", id), ("$owner", owner), ("$image", image), ("$now", Times.Text(clock.GetUtcNow())), ("$who", who));
        transaction.Commit();
        return PhotoKept.Kept;
    }

    /// <summary>A photo; null when it is not here.</summary>
    public byte[]? Find(PhotoOwner kind, string owner, string id)
    {
        var (table, column, _, _) = Place(kind);
        using var connection = database.Connect();
        return connection.Read($"SELECT image FROM {table} WHERE {column} = $owner AND id = $id", r => r.GetFieldValue<byte[]>(0), ("$owner", owner), ("$id", id)).FirstOrDefault();
    }

    /// <summary>Ids of the photos of a survey or store.</summary>
    public IReadOnlyList<string> Of(PhotoOwner kind, string owner)
    {
        var (table, column, _, _) = Place(kind);
        using var connection = database.Connect();
        return connection.Read($"SELECT id FROM {table} WHERE {column} = $owner ORDER BY id", r => r.GetString(0), ("$owner", owner));
    }

    private static (string Table, string Column, string Owners, int Most) Place(PhotoOwner kind) => kind == PhotoOwner.Survey
        ? ("photos", "survey", "surveys", MostOfASurvey)
        : ("store_photos", "store", "stores", MostOfAStore);
}
