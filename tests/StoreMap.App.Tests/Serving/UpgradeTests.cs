using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using StoreMap.Data;
using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Tests.Serving;

/// <summary>A data folder as the first step alone left it, started with the program of today.</summary>
public sealed class UpgradeTests : IDisposable
{
    private static readonly string[] Tables = ["stores", "layouts", "surveys", "events", "finding_entries"];
    private readonly string folder = Path.Combine(Path.GetTempPath(), "storemap-upgrade-" + Path.GetRandomFileName());

    public UpgradeTests()
    {
        foreach (var sub in new[] { "keys", "logs" }) Directory.CreateDirectory(Path.Combine(folder, sub));
        foreach (var (file, text) in Beside) File.WriteAllText(Path.Combine(folder, file), text);
        using var connection = Open(StoreDatabase.FileName);
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode = WAL;\n" + File.ReadAllText(Path.Combine(Runner.Root, "tests", "StoreMap.App.Tests", "Cases", "first-release.sql"));
        command.ExecuteNonQuery();
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static Dictionary<string, string> Beside { get; } = new() { [Path.Combine("logs", "requests-20260304.jsonl")] = "{}\n", ["notes.txt"] = "the office's own" };

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Start_OnAFolderOfTheFirstStep_KeepsAllOfItAndBacksItUpFirst()
    {
        var before = Rows(StoreDatabase.FileName);
        Assert.Equal([1, 2, 1, 3, 1], Tables.Select(t => before[t].Count));
        await using (var server = await TestServer.Start(folder: folder))
        {
            // Every row is as it was, and the new steps are there.
            Assert.Equal(before, Rows(StoreDatabase.FileName));
            foreach (var table in new[] { "people", "photos", "devices", "store_photos" }) Assert.Contains(table, TableNames(StoreDatabase.FileName));
            foreach (var (file, text) in Beside) Assert.Equal(text, await File.ReadAllTextAsync(Path.Combine(folder, file), Cancel));

            // The backup made first has the same rows, in the schema of then.
            var backup = Path.Combine("backups", Path.GetFileName(Assert.Single(Directory.GetFiles(Path.Combine(folder, "backups")))));
            Assert.StartsWith("before-update-", Path.GetFileName(backup), StringComparison.Ordinal);
            Assert.Equal(before, Rows(backup));
            Assert.Equal([.. Tables.Append("SchemaVersions").Order(StringComparer.Ordinal)], TableNames(backup));

            // All of it is served, both versions of the layout too.
            Assert.Equal("Quince Street Grocery", (string)(await Get(server, "/api/stores"))[0]!["name"]!);
            Assert.Equal("Quince Street", (string)(await Get(server, "/api/stores/quince-street/layout?version=1"))["name"]!);
            var plan = LayoutDocument.Parse(await server.Client.GetStringAsync("/api/stores/quince-street/layout", Cancel)).Plan;
            Assert.Equal(3, (await Get(server, "/api/surveys/20260304-visit/survey.json"))["readings"]!.AsArray().Count);
            Assert.Equal(["e1", "e2", "e3"], (await Get(server, "/api/surveys/20260304-visit/events")).AsArray().Select(e => (string)e!["id"]!));
            var record = ServiceRecordFile.Parse(await server.Client.GetStringAsync("/api/stores/quince-street/service.json", Cancel), null, plan).Record;
            Assert.Equal(("F1", FindingStatus.Open), (record.Entries.Single().Finding, record.Entries.Single().Status));

            // And what came with later steps works on it.
            server.People.Set("Ben Ash", "office", "nine brown herons wading");
            using var more = Events.Of("quince-street", Events.Reading("20260304-visit", "e4", "C1", 21, "3"));
            Assert.True((await server.Client.PostAsync("/api/surveys/20260304-visit/events", more, Cancel)).IsSuccessStatusCode);
        }
    }

    private static async Task<JsonNode> Get(TestServer server, string path) => JsonNode.Parse(await server.Client.GetStringAsync(path, Cancel))!;

    private SqliteConnection Open(string file)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, file)};Pooling=False");
        connection.Open();
        return connection;
    }

    private Dictionary<string, List<string>> Rows(string file) => Tables.ToDictionary(t => t, t => Read(file, $"SELECT * FROM {t} ORDER BY 1, 2"));

    private List<string> TableNames(string file) => Read(file, "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name");

    private List<string> Read(string file, string sql)
    {
        using var connection = Open(file);
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read()) rows.Add(string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(i => reader.GetValue(i).ToString())));
        return rows;
    }
}
