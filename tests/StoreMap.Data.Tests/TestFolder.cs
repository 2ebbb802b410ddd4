using StoreMap.Data;

namespace StoreMap.Tests;

/// <summary>A data folder of its own that goes when the test ends, and a clock that stands still.</summary>
internal sealed class TestFolder : IDisposable
{
    public TestFolder()
    {
        Directory.CreateDirectory(Root);
        Database = StoreDatabase.Open(Data, Clock);
        Layouts = new Layouts(Database, Clock);
        Journal = new Journal(Database, Clock);
        People = new People(Database, Clock);
        Photos = new Photos(Database, Clock);
        Findings = new Findings(Database, Clock);
    }

    public string Root { get; } = Path.Combine(Path.GetTempPath(), "storemap-data-" + Path.GetRandomFileName());

    public string Data => Path.Combine(Root, "data");

    public TestClock Clock { get; } = new();

    public StoreDatabase Database { get; }

    public Layouts Layouts { get; }

    public Journal Journal { get; }

    public People People { get; }

    public Photos Photos { get; }

    public Findings Findings { get; }

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(Root, recursive: true);
    }
}

/// <summary>A clock moved by the test.</summary>
internal sealed class TestClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 8, 4, 9, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;
}
