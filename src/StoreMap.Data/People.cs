using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>Someone who may sign in.</summary>
/// <param name="Name">Name, case ignored.</param>
/// <param name="Role"><c>office</c> or <c>field</c>.</param>
/// <param name="Stamp">Changes with the passphrase and when the person is shut out: older sign-ins end.</param>
public sealed record Person(string Name, string Role, string Stamp);

/// <summary>What a try to sign in came to.</summary>
/// <param name="Person">Who; null when refused.</param>
/// <param name="LockedTill">Until when no try is taken; null when not locked.</param>
public sealed record SignIn(Person? Person, DateTimeOffset? LockedTill);

/// <summary>Those who may sign in. Five failed tries in a row lock a name for five minutes, each further one for twice as long, up to a day.</summary>
public sealed class People(StoreDatabase database, TimeProvider clock)
{
    /// <summary>Fewest characters of a passphrase.</summary>
    public const int FewestCharacters = 10;

    private const int FreeTries = 5;

    // Verified when the name is unknown, so that both take as long.
    private static readonly Lazy<string> Nobody = new(() => Passphrase.Hash("nobody has this passphrase"));

    /// <summary>True for 1 to 64 characters, none of them a control character and not all blank.</summary>
    public static bool IsName(string name) => name.Length <= 64 && !name.Any(char.IsControl) && !string.IsNullOrWhiteSpace(name);

    /// <summary>All names with roles.</summary>
    public IReadOnlyList<Person> All()
    {
        using var connection = database.Connect();
        return connection.Read("SELECT name, role, stamp FROM people ORDER BY name", PersonOf);
    }

    /// <summary>One person; null when unknown.</summary>
    public Person? Find(string name)
    {
        using var connection = database.Connect();
        return connection.Read("SELECT name, role, stamp FROM people WHERE name = $name", PersonOf, ("$name", name)).FirstOrDefault();
    }

    /// <summary>Adds a person, or gives a known one a new passphrase and role.</summary>
    /// <param name="name">1 to 64 characters.</param>
    /// <param name="role"><c>office</c> or <c>field</c>.</param>
    /// <param name="passphrase">At least <see cref="FewestCharacters"/> characters.</param>
    public void Set(string name, string role, string passphrase)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(passphrase.Length, FewestCharacters);
        using var connection = database.Connect();
        connection.Execute(
            """
            INSERT INTO people(name, role, passphrase, stamp) VALUES ($name, $role, $hash, $stamp)
            ON CONFLICT(name) DO UPDATE SET role = $role, passphrase = $hash, stamp = $stamp, failures = 0, locked_till = NULL
            """,
            ("$name", name), ("$role", role), ("$hash", Passphrase.Hash(passphrase)), ("$stamp", Guid.NewGuid().ToString("N")));
    }

    /// <summary>Shuts a person out: sign-ins made before end at the next contact.</summary>
    /// <returns>False when unknown.</returns>
    public bool Remove(string name)
    {
        using var connection = database.Connect();
        return connection.Execute("DELETE FROM people WHERE name = $name", ("$name", name)) == 1;
    }

    /// <summary>Tries to sign in.</summary>
    public SignIn Try(string name, string passphrase)
    {
        var (person, hash, locked) = CountTry(name);
        if (locked is { Refused: true }) return new SignIn(null, locked.Value.Till);
        // Outside any transaction: it is slow by design and must not hold up those who log readings.
        if (!Passphrase.Verify(passphrase, hash ?? Nobody.Value) || person is null) return new SignIn(null, locked?.Till);
        using var connection = database.Connect();
        connection.Execute("UPDATE people SET failures = 0, locked_till = NULL WHERE name = $name", ("$name", name));
        return new SignIn(person, null);
    }

    /// <summary>Counts a try as failed before it is judged, so that tries sent all at once count too.</summary>
    private (Person? Person, string? Hash, (DateTimeOffset Till, bool Refused)? Locked) CountTry(string name)
    {
        using var connection = database.Connect();
        using var transaction = connection.BeginTransaction();
        var now = clock.GetUtcNow();
        var row = connection.Read(
            "SELECT name, role, stamp, passphrase, failures, locked_till FROM people WHERE name = $name",
            r => (Person: PersonOf(r), Hash: r.GetString(3), Failures: r.GetInt32(4), Till: r.IsDBNull(5) ? (DateTimeOffset?)null : Times.Of(r.GetString(5))),
            ("$name", name)).FirstOrDefault();
        if (row.Person is null) return (null, null, null);
        if (row.Till is { } till && till > now) return (row.Person, row.Hash, (till, true));
        var next = LockAfter(row.Failures + 1, now);
        connection.Execute(
            "UPDATE people SET failures = failures + 1, locked_till = $till WHERE name = $name",
            ("$till", next is { } l ? Times.Text(l) : null), ("$name", name));
        transaction.Commit();
        return (row.Person, row.Hash, next is { } n ? (n, false) : null);
    }

    private static DateTimeOffset? LockAfter(int failures, DateTimeOffset now) =>
        failures < FreeTries ? null : now.AddMinutes(Math.Min(5 * Math.Pow(2, failures - FreeTries), 1440));

    private static Person PersonOf(SqliteDataReader r) => new(r.GetString(0), r.GetString(1), r.GetString(2));
}
