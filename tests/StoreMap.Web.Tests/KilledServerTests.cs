using System.Collections.Concurrent;
using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Tests;

/// <summary>The real server killed as by a power cut while two devices send to it, without a browser between: many more kills for the
/// time, and each of them with requests under way.</summary>
public sealed class KilledServerTests
{
    private const string Store = "lark-lane";
    private const string Survey = "killed-server";

    [Fact]
    public async Task ServerKilledAgainAndAgainWhileTwoDevicesSend_HasAllItConfirmedOnce()
    {
        await using var server = await ServerProcess.Start();
        var layout = await File.ReadAllTextAsync(Desk.Sample("small.layout.json"), TestContext.Current.CancellationToken);
        using (var client = Client(server))
        using (var body = new StringContent(layout, System.Text.Encoding.UTF8, "application/json"))
            (await client.PutAsync($"/api/stores/{Store}/layout", body, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();

        ConcurrentDictionary<string, string> confirmed = new(), sent = new();
        using var enough = new CancellationTokenSource();
        // One device's clock is an hour ahead; its entries are no less kept.
        Task[] devices = [Send(server, "dev-a", TimeSpan.Zero, sent, confirmed, enough.Token), Send(server, "dev-b", TimeSpan.FromHours(1), sent, confirmed, enough.Token)];
        var random = new Random(50);
        for (var kill = 0; kill < Effort.Kills; kill++)
        {
            // Only what was confirmed since the start before tells that requests are under way.
            var before = confirmed.Count;
            Assert.True(await Wait.Until(() => Task.FromResult(confirmed.Count), now => now > before, TimeSpan.FromMilliseconds(1)) > before, "nothing is confirmed any more");
            await Task.Delay(random.Next(0, 40), TestContext.Current.CancellationToken);
            await server.Kill();
            await server.Up();
        }

        await enough.CancelAsync();
        await Task.WhenAll(devices);
        var kept = await Events(server);
        Assert.True(confirmed.Count > 2 * Effort.Kills, $"only {confirmed.Count} entries were confirmed");
        Assert.Equal(kept.Count, kept.Select(e => e.Id).Distinct().Count());
        Assert.All(kept, e => Assert.Equal(sent[e.Id], e.Document));
        Assert.Empty(confirmed.Keys.Except(kept.Select(e => e.Id)));
        // Whoever is not answered sends again: nothing stays between sent and kept.
        Assert.Equal(sent.Count, kept.Count);
    }

    // As the client does it: a batch goes again until it is confirmed, whatever became of the answer before.
    private static async Task Send(
        ServerProcess server, string device, TimeSpan ahead, ConcurrentDictionary<string, string> sent, ConcurrentDictionary<string, string> confirmed, CancellationToken enough)
    {
        using var client = Client(server);
        var started = new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
        for (var number = 0; !enough.IsCancellationRequested;)
        {
            string[] texts = [.. Enumerable.Range(number, 1 + (number % 5)).Select(n => Reading(device, n, started + ahead))];
            foreach (var text in texts) sent[JsonNode.Parse(text)!["id"]!.GetValue<string>()] = text;
            number += texts.Length;
            while (!await Confirmed(client, started, texts)) await Task.Delay(10, CancellationToken.None);
            foreach (var text in texts) confirmed[JsonNode.Parse(text)!["id"]!.GetValue<string>()] = text;
        }
    }

    private static async Task<bool> Confirmed(HttpClient client, DateTimeOffset started, string[] texts)
    {
        try
        {
            using var answer = await client.PostAsJsonAsync($"/api/surveys/{Survey}/events", new { store = Store, started, events = texts });
            return answer.IsSuccessStatusCode;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or IOException)
        {
            return false;
        }
    }

    private static string Reading(string device, int n, DateTimeOffset start) => new JsonObject
    {
        ["v"] = 1, ["id"] = $"{device}-{n}", ["survey"] = Survey, ["device"] = device, ["number"] = n,
        ["time"] = start.AddSeconds(n).ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture), ["kind"] = "reading",
        ["body"] = new JsonObject { ["fixture"] = "C1", ["at"] = 1, ["ppm"] = (n % 40).ToString(CultureInfo.InvariantCulture) },
    }.ToJsonString();

    private static async Task<List<(string Id, string Document)>> Events(ServerProcess server)
    {
        var all = new List<(string, string)>();
        for (long after = 0; ;)
        {
            using var page = JsonDocument.Parse(await server.Get($"/api/surveys/{Survey}/events?after={after.ToString(CultureInfo.InvariantCulture)}"));
            if (page.RootElement.GetArrayLength() == 0) return all;
            foreach (var e in page.RootElement.EnumerateArray())
            {
                all.Add((e.GetProperty("id").GetString()!, e.GetProperty("document").GetString()!));
                after = e.GetProperty("received").GetInt64();
            }
        }
    }

    private static HttpClient Client(ServerProcess server)
    {
        var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = TimeSpan.FromSeconds(10) };
        client.DefaultRequestHeaders.Add("X-StoreMap-Client", "1");
        return client;
    }
}
