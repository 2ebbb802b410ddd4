namespace StoreMap.Data;

/// <summary>A device that was in contact.</summary>
/// <param name="Id">Made by the client at its first use.</param>
/// <param name="Person">Who was signed in on it last.</param>
/// <param name="Seen">When it was last in contact, to the hour.</param>
/// <param name="Lost">Since when it counts as lost; null when it does not.</param>
public sealed record Device(string Id, string Person, DateTimeOffset Seen, DateTimeOffset? Lost);

/// <summary>Devices that were in contact, and which of them are lost.</summary>
public sealed class Devices(StoreDatabase database, TimeProvider clock)
{
    private static readonly TimeSpan SeenStep = TimeSpan.FromHours(1);

    /// <summary>All devices, the one seen last first.</summary>
    public IReadOnlyList<Device> All()
    {
        using var connection = database.Connect();
        return connection.Read(
            "SELECT id, person, seen, lost FROM devices ORDER BY seen DESC, id",
            r => new Device(r.GetString(0), r.GetString(1), Times.Of(r.GetString(2)), r.IsDBNull(3) ? null : Times.Of(r.GetString(3))));
    }

    /// <summary>True when a device counts as lost.</summary>
    public bool IsLost(string id)
    {
        using var connection = database.Connect();
        return connection.Read("SELECT 1 FROM devices WHERE id = $id AND lost IS NOT NULL", r => r.GetInt32(0), ("$id", id)).Count > 0;
    }

    /// <summary>Notes a contact; written at most once an hour, or when someone else is signed in.</summary>
    /// <param name="id">The device.</param>
    /// <param name="person">Who is signed in on it.</param>
    public void See(string id, string person)
    {
        using var connection = database.Connect();
        var now = clock.GetUtcNow();
        var known = connection.Read("SELECT seen FROM devices WHERE id = $id AND person = $person", r => Times.Of(r.GetString(0)), ("$id", id), ("$person", person));
        if (known.Count > 0 && now - known[0] < SeenStep) return;
        connection.Execute(
            "INSERT INTO devices(id, person, seen) VALUES ($id, $person, $now) ON CONFLICT(id) DO UPDATE SET person = $person, seen = $now",
            ("$id", id), ("$person", person), ("$now", Times.Text(now)));
    }

    /// <summary>Has a device count as lost, or no longer.</summary>
    /// <returns>False when the device is unknown.</returns>
    public bool SetLost(string id, bool lost)
    {
        using var connection = database.Connect();
        return connection.Execute("UPDATE devices SET lost = $lost WHERE id = $id", ("$id", id), ("$lost", lost ? Times.Text(clock.GetUtcNow()) : null)) == 1;
    }
}
