namespace StoreMap.Data;

/// <summary>What became of a photo that was sent.</summary>
public enum PhotoKept
{
    /// <summary>It is on the disk, now or since before.</summary>
    Kept,

    /// <summary>The id is known with another picture, which stays.</summary>
    Different,

    /// <summary>Its survey is not here yet.</summary>
    NoSurvey,

    /// <summary>The survey has as many as it may.</summary>
    TooMany,
}

/// <summary>Photos of surveys: added, never changed.</summary>
public sealed class Photos(StoreDatabase database, TimeProvider clock)
{
    /// <summary>Most photos of one survey.</summary>
    public const int MostOfASurvey = 300;

    /// <summary>Adds a photo; the same sent again does nothing.</summary>
    /// <param name="survey">Its survey.</param>
    /// <param name="id">Made by the client, unique for ever.</param>
    /// <param name="image">A JPEG, already looked at.</param>
    /// <param name="who">Who sends.</param>
    public PhotoKept Add(string survey, string id, byte[] image, string who)
    {
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        if (connection.Read("SELECT 1 FROM surveys WHERE id = $survey", r => r.GetInt32(0), ("$survey", survey)).Count == 0) return PhotoKept.NoSurvey;
        var known = connection.Read("SELECT survey = $survey AND image = $image FROM photos WHERE id = $id", r => r.GetBoolean(0), ("$survey", survey), ("$image", image), ("$id", id));
        if (known.Count > 0) return known[0] ? PhotoKept.Kept : PhotoKept.Different;
        if (connection.Read("SELECT count(*) FROM photos WHERE survey = $survey", r => r.GetInt32(0), ("$survey", survey))[0] >= MostOfASurvey) return PhotoKept.TooMany;
        connection.Execute(
            "INSERT INTO photos(id, survey, image, at, sender) VALUES ($id, $survey, $image, $now, $who)",
            ("$id", id), ("$survey", survey), ("$image", image), ("$now", Times.Text(clock.GetUtcNow())), ("$who", who));
        transaction.Commit();
        return PhotoKept.Kept;
    }

    /// <summary>A survey's photo; null when it is not here.</summary>
    public byte[]? Find(string survey, string id)
    {
        using var connection = database.Connect();
        return connection.Read("SELECT image FROM photos WHERE survey = $survey AND id = $id", r => r.GetFieldValue<byte[]>(0), ("$survey", survey), ("$id", id)).FirstOrDefault();
    }

    /// <summary>Ids of a survey's photos.</summary>
    public IReadOnlyList<string> Of(string survey)
    {
        using var connection = database.Connect();
        return connection.Read("SELECT id FROM photos WHERE survey = $survey ORDER BY id", r => r.GetString(0), ("$survey", survey));
    }
}
