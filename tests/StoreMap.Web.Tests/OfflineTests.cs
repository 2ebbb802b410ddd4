using System.Globalization;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The floor without a network: tabs killed at any moment, two devices with different clocks, a new version in between.</summary>
[Collection(BrowserTests.Name)]
public sealed class OfflineTests(Chromium chromium)
{
    private const int Readings = 200;
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(1);

    // A hand at the pad, faster than any, that tells each reading it was shown as kept.
    private const string Hand = """
        async values => {
          const done = () => parseInt(document.getElementById('progress').innerText);
          for (let n = done(); n < values.length; n = done()) {
            for (const c of values[n]) document.getElementById('key-' + c.charCodeAt(0)).click();
            document.getElementById('save').click();
            while (done() === n) await new Promise(r => setTimeout(r, 1));
            console.log('kept ' + done());
          }
        }
        """;

    /// <summary>The tab's process is crashed through the browser's debugging protocol: it ends as if killed, within a write or between, while
    /// the browser and its other devices live on.</summary>
    [Fact]
    public async Task Offline_TabKilledAgainAndAgain_LosesNothingShownAsKept()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, wire.Url, cases: 30);
        var survey = await Floor.Begin(page);
        await Floor.AllSent(page);
        await Floor.ReadyForOffline(page);
        wire.Cut();

        var random = new Random(7);
        string[] values = [.. Enumerable.Range(0, Readings).Select(i => (i * 7 % 30).ToString(CultureInfo.InvariantCulture))];
        var kept = 0;
        for (var kill = 0; kill < Effort.Kills; kill++)
        {
            var heard = kept;
            page.Console += (_, message) =>
            {
                if (message.Text.StartsWith("kept ", StringComparison.Ordinal)) Volatile.Write(ref heard, int.Parse(message.Text[5..], CultureInfo.InvariantCulture));
            };
            var hand = page.EvaluateAsync(Hand, values);
            var last = Math.Min(Readings, kept + random.Next(1, 2 * Readings / (Effort.Kills + 2)));
            await Wait.Until(() => Task.FromResult(Volatile.Read(ref heard)), now => now >= last || hand.IsFaulted, Moment);
            await Task.Delay(random.Next(0, 25), TestContext.Current.CancellationToken);
            await Crash(device, page);
            _ = hand.ContinueWith(h => h.Exception, TaskScheduler.Default);
            page = await device.NewPageAsync();
            await page.GotoAsync($"{wire.Url}/survey/{survey}");
            await page.Locator("#progress").WaitForAsync();
            kept = await Floor.Done(page);
            Assert.True(kept >= Volatile.Read(ref heard), $"{Volatile.Read(ref heard)} were shown as kept, {kept} are here after kill {kill + 1}");
        }

        await page.EvaluateAsync(Hand, values);
        await Floor.IsDone(page, Readings);
        await Assertions.Expect(page.Locator("a.stand")).ToContainTextAsync("to send");
        wire.Mend();
        await Floor.AllSent(page);
        Assert.Equal(values, (await Floor.Typed(server, survey)).Select(t => t.Ppm));
    }

    [Fact]
    public async Task TwoDevices_ClocksAnHourApartAndAnUpdateBetween_BothEndWithBothsReadings()
    {
        await using var server = await ServerProcess.Start();
        await using Wire near = new(server.Url), far = new(server.Url);
        await using var first = await chromium.Device();
        await using var second = await chromium.Device();
        await second.AddInitScriptAsync("{ const Real = Date, ahead = 3600000; Date = class extends Real { constructor(...a) { if (a.length) super(...a); else super(Real.now() + ahead); } static now() { return Real.now() + ahead; } }; }");
        var one = await first.NewPageAsync();
        await Floor.MakeStore(one, near.Url);
        var survey = await Floor.Begin(one);
        await Floor.Log(one, "5");
        await Floor.AllSent(one);
        var two = await second.NewPageAsync();
        await two.GotoAsync(far.Url);
        await two.GetByRole(AriaRole.Link, new() { Name = "Alder Corner Foods" }).ClickAsync();
        await two.Locator($"a[href='/survey/{survey}']").ClickAsync();
        await Floor.IsDone(two, 1);

        // Both go on by themselves, each at points of its own.
        foreach (var page in new[] { one, two }) await Floor.ReadyForOffline(page);
        foreach (var wire in new[] { near, far }) wire.Cut();
        foreach (var ppm in new[] { "6", "7" }) await Floor.Log(one, ppm);
        for (var i = 0; i < 6; i++) await two.GetByRole(AriaRole.Button, new() { Name = "Next point" }).ClickAsync();
        foreach (var ppm in new[] { "8", "9" }) await Floor.Log(two, ppm);

        // A new version while the second is still away: the first takes it in with its unsent work, and starts with it offline.
        foreach (var wire in new[] { near, far }) wire.Update();
        near.Mend();
        await Floor.UseNewVersion(one);
        await Floor.AllSent(one);
        near.Cut();
        await one.ReloadAsync();
        await one.Locator("#progress").WaitForAsync();
        await Floor.Log(one, "10");

        // The second opens its old version without a network, logs, and comes back to both.
        await two.ReloadAsync();
        await two.Locator("#progress").WaitForAsync();
        await Floor.Log(two, "11");
        foreach (var wire in new[] { near, far }) wire.Mend();
        await Floor.UseNewVersion(two);
        await Floor.AllSent(two);
        await Floor.AllSent(one);

        var typed = await Floor.Typed(server, survey);
        Assert.Equal(["10", "11", "5", "6", "7", "8", "9"], typed.Select(t => t.Ppm).Order(StringComparer.Ordinal));
        Assert.Equal(2, typed.Select(t => t.Device).Distinct().Count());
        Assert.Equal(7, await Floor.OnServer(server, survey));

        // Both may have read at one point, apart: both readings are kept. Either open survey takes in the other's by itself.
        var points = await Floor.PointsOnServer(server, survey);
        Assert.InRange(points, 6, 7);
        foreach (var page in new[] { one, two }) await Assertions.Expect(page.Locator("#progress")).ToContainTextAsync($"{points} of");
    }

    private static async Task Crash(IBrowserContext device, IPage page)
    {
        var protocol = await device.NewCDPSessionAsync(page);
        var gone = new TaskCompletionSource();
        page.Crash += (_, _) => gone.TrySetResult();
        // It never answers: there is nobody left to.
        _ = protocol.SendAsync("Page.crash").ContinueWith(t => t.Exception, TaskScheduler.Default);
        await gone.Task.WaitAsync(Wait.Patience);
        await page.CloseAsync();
    }
}
