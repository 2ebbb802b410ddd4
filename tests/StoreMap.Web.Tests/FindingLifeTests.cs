using System.Text.Json;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A finding from the panel to its repair, tests and reopening, alone, offline and on two devices.</summary>
[Collection(BrowserTests.Name)]
public sealed class FindingLifeTests(Chromium chromium)
{
    // A grey picture with a copper line.
    private const string Picture = """
        async () => {
          const c = document.createElement('canvas'), ink = c.getContext('2d');
          c.width = 320; c.height = 240;
          ink.fillStyle = '#9aa4aa'; ink.fillRect(0, 0, 320, 240);
          ink.strokeStyle = '#b4622d'; ink.lineWidth = 24; ink.beginPath(); ink.moveTo(0, 180); ink.lineTo(130, 180); ink.lineTo(190, 80); ink.lineTo(320, 80); ink.stroke();
          return c.toDataURL('image/jpeg').split(',')[1];
        }
        """;

    [Fact]
    public async Task Finding_ConfirmedRepairedVerifiedAndReopened_IsInTheServersRecord()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "findings");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await Open(page);
        await Assertions.Expect(page.GetByText("No leak was confirmed yet")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First.ClickAsync();
        await page.Locator(".leak-here").First.ClickAsync();
        await page.Locator("input.component").FillAsync("expansion valve flare");

        // Found on the visit's day, unless another is given.
        var found = await page.Locator("input.found-on").InputValueAsync();
        Assert.StartsWith("2026-0", found, StringComparison.Ordinal);
        await page.Locator(".confirm").ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Findings: photo, repair and tests" }).ClickAsync();
        await Stands(page, "Open");
        await Assertions.Expect(page.Locator(".record li").First).ToContainTextAsync(found);
        await Assertions.Expect(page.Locator("#score")).ToContainTextAsync("First panel right: 1 of 1");
        await page.Locator("input.photo").SetInputFilesAsync(new FilePayload { Name = "a.jpg", MimeType = "image/jpeg", Buffer = Convert.FromBase64String(await page.EvaluateAsync<string>(Picture)) });
        await Assertions.Expect(page.Locator(".finding .photos img")).ToHaveCountAsync(1);
        await screens.Look("open");

        // A repair says what was done; where its hazard is, the caution stands.
        await Step(page, "Repair");
        await Assertions.Expect(page.Locator(".entry .caution")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator("#entry-component")).ToHaveValueAsync("expansion valve flare");
        await page.Locator("#entry-who").FillAsync("Ben Ash");
        await page.Locator("#entry-repair").FillAsync("flare remade");
        await page.Locator("#entry-added").FillAsync("3,5");
        await screens.Look("repair");
        await page.Locator("#entry-add").ClickAsync();
        await Stands(page, "Repaired");
        await Assertions.Expect(page.Locator(".finding .notice")).ToContainTextAsync("A check by a certified person");

        await Step(page, "InitialTest");
        await page.Locator("#entry-passed").CheckAsync();
        await screens.Look("test");
        await page.Locator("#entry-add").ClickAsync();
        await Stands(page, "Verified");

        await Assertions.Expect(page.Locator(".record li", new() { HasText = "3.5 kg added" })).ToContainTextAsync("flare remade");

        // A day before what is known is refused, and a mistake is taken back.
        await Step(page, "FollowUpTest");
        await page.Locator("#entry-day").FillAsync("2026-01-01");
        await page.Locator("#entry-failed").CheckAsync();
        await page.Locator("#entry-add").ClickAsync();
        await Assertions.Expect(page.Locator(".entry [role=alert]")).ToContainTextAsync("before the finding's latest entry");
        await page.Locator("#entry-day").FillAsync(await page.EvaluateAsync<string>("() => document.querySelector('#entry-day').max"));
        await page.Locator("#entry-add").ClickAsync();
        await Stands(page, "Reopened");
        await page.Locator(".take-back").Last.ClickAsync();
        await page.Locator(".take-back-now").ClickAsync();
        await Stands(page, "Verified");
        await Step(page, "Reopen");
        await page.Locator("#entry-note").FillAsync("oil at the flare again");
        await page.Locator("#entry-add").ClickAsync();
        await Stands(page, "Reopened");
        await screens.Look("reopened");
        await Floor.AllSent(page);

        // One record: on the screen, from the server, and for the command line.
        var file = await Desk.Download(page, "#service-file");
        var record = await server.Get("/api/stores/lark-lane/service.json");
        Assert.Equal(record, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));
        using var json = JsonDocument.Parse(record);
        var entries = json.RootElement.GetProperty("entries").EnumerateArray().ToList();
        Assert.Equal(["open", "repaired", "verified", "reopened"], entries.Select(e => e.GetProperty("status").GetString()));
        Assert.Equal("flare remade", entries[1].GetProperty("repair").GetString());
        Assert.Equal(3.5, json.RootElement.GetProperty("movements")[0].GetProperty("added").GetDouble());
        var named = Path.Combine(server.Folder, "lark-lane.service.json");
        File.Copy(file, named);
        Assert.Equal(0, await DeskTests.Run("check", Desk.Sample("small.layout.json"), named));
        using var trail = JsonDocument.Parse(await server.Get("/api/stores/lark-lane/findings"));
        Assert.Equal(6, trail.RootElement.GetArrayLength());
        Assert.All(trail.RootElement.EnumerateArray(), e => Assert.Equal("this machine", e.GetProperty("sender").GetString()));
        screens.IsQuiet();
    }

    [Fact]
    public async Task Entries_MadeOfflineOnTwoDevices_AreEachThereOnceAndToldAsMadeApart()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var screens = await Screens.Open(chromium, "apart");
        await using var second = await chromium.Device();
        var one = screens.Page;
        await Floor.MakeStore(one, wire.Url);
        await Open(one);
        await one.Locator("#new-finding summary").ClickAsync();
        await one.Locator("#found-place").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await one.Locator("#found-component").FillAsync("return bend");
        await one.Locator("#found-who").FillAsync("Ada Brook");
        await screens.Look("new");

        // A day that has not come, past the field's own bound, is told and nothing is added.
        var day = await one.Locator("#found-day").InputValueAsync();
        await one.Locator("#found-day").EvaluateAsync("d => d.removeAttribute('max')");
        await one.Locator("#found-day").FillAsync("2999-01-01");
        await one.Locator("#found-add").ClickAsync();
        await Assertions.Expect(one.Locator("#new-finding .notice.warn")).ToContainTextAsync("The day 2999-01-01 has not come yet. Give today,");
        await one.Locator("#found-day").FillAsync(day);
        await one.Locator("#found-add").ClickAsync();
        await Stands(one, "Open");

        // The form is closed then, and stays so.
        await Assertions.Expect(one.Locator("#new-finding[open]")).ToHaveCountAsync(0);
        Assert.Equal(0, await one.EvaluateAsync<int>("() => new Promise(done => { let n = 0; document.querySelector('#new-finding').addEventListener('toggle', () => n++); setTimeout(() => done(n), 500); })"));
        await Floor.AllSent(one);
        var two = await second.NewPageAsync();
        await two.GotoAsync(wire.Url);
        await two.GetByRole(AriaRole.Link, new() { Name = "Alder Corner Foods" }).ClickAsync();
        await Open(two);
        await Stands(two, "Open");
        foreach (var page in new[] { one, two }) await Floor.ReadyForOffline(page);
        wire.Cut();

        await Step(one, "Repair");
        await one.Locator("#entry-repair").FillAsync("bend brazed");
        await one.Locator("#entry-add").ClickAsync();
        await Stands(one, "Repaired");
        await Step(two, "Isolate");
        await two.Locator("#entry-who").FillAsync("Ben Ash");
        await two.Locator("#entry-note").FillAsync("header 4");
        await two.Locator("#entry-add").ClickAsync();
        await Stands(two, "Isolated");

        // Not sent, said so, and still there when the page is opened anew without a network.
        await one.ReloadAsync();
        await Stands(one, "Repaired");
        await Assertions.Expect(one.Locator(".unsent")).ToHaveCountAsync(1);
        await Assertions.Expect(one.Locator("a.stand")).ToContainTextAsync("1 to send");
        wire.Mend();
        foreach (var page in new[] { one, two }) await Floor.AllSent(page);
        await Floor.Exchange(one);
        foreach (var page in new[] { one, two })
        {
            await Assertions.Expect(page.Locator(".apart")).ToBeVisibleAsync();
            await Assertions.Expect(page.Locator(".record li")).ToHaveCountAsync(3);
            await Assertions.Expect(page.Locator(".unsent")).ToHaveCountAsync(0);
        }

        await screens.Look("told");
        using var trail = JsonDocument.Parse(await server.Get("/api/stores/alder-corner-foods/findings"));
        Assert.Equal(3, trail.RootElement.GetArrayLength());

        // The next entry, made knowing both, settles it on either device.
        await Step(one, "Note");
        await one.Locator("#entry-note").FillAsync("both done, valve open again");
        await one.Locator("#entry-add").ClickAsync();
        await Assertions.Expect(one.Locator(".record li")).ToHaveCountAsync(4);
        await Floor.AllSent(one);
        await Floor.Exchange(two);
        await Assertions.Expect(two.Locator(".record li")).ToHaveCountAsync(4);
        foreach (var page in new[] { one, two }) await Assertions.Expect(page.Locator(".apart")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Record_OfTheDemoAndOfAnEarlierVersion_IsListedOnce()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "record");
        var page = screens.Page;
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").ClickAsync();
        await page.Locator("#begin").WaitForAsync();
        await Open(page);
        await Assertions.Expect(page.Locator(".finding")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator(".finding").Last).ToContainTextAsync("flare remade");
        await Assertions.Expect(page.Locator(".finding").Last).ToContainTextAsync("22 lb added");
        await screens.Look("demo");

        // As an earlier version kept it beside the store, and read in from the file as well.
        await page.EvaluateAsync("""
            text => new Promise((ok, no) => {
              const asked = indexedDB.open('storemap');
              asked.onerror = no;
              asked.onsuccess = () => {
                const tx = asked.result.transaction('stores', 'readwrite'), stores = tx.objectStore('stores');
                stores.get('tern-hollow').onsuccess = e => stores.put({ ...e.target.result, service: text });
                tx.oncomplete = () => { asked.result.close(); ok(); };
              };
            })
            """, (await File.ReadAllTextAsync(Path.Combine(Checkout.Root, "layouts", "tern-hollow", "tern-hollow.service.json"), TestContext.Current.CancellationToken)).Replace("loose", "cracked", StringComparison.Ordinal));
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".finding").Last).ToContainTextAsync("cracked");
        await Assertions.Expect(page.Locator(".finding").Last.Locator(".record li")).ToHaveCountAsync(4);
        await page.GetByRole(AriaRole.Link, new() { Name = "Store", Exact = true }).ClickAsync();
        await page.Locator("#service-open").SetInputFilesAsync(Path.Combine(Checkout.Root, "layouts", "tern-hollow", "tern-hollow.service.json"));
        await Assertions.Expect(page.GetByText("All of that service record is here already.")).ToBeVisibleAsync();
        screens.IsQuiet();
    }

    private static Task Open(IPage page) => page.GetByRole(AriaRole.Link, new() { Name = "Findings", Exact = true }).ClickAsync();

    private static Task Step(IPage page, string step) => page.Locator($"[data-step={step}]").ClickAsync();

    private static Task Stands(IPage page, string status) => Assertions.Expect(page.Locator(".stand-line b")).ToHaveTextAsync(status);
}
