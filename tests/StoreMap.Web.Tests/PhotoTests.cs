using System.Text;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Photos on the floor: small and without metadata, kept offline, sent later, wrong files refused.</summary>
[Collection(BrowserTests.Name)]
public sealed class PhotoTests(Chromium chromium)
{
    private const string Place = "GPS 41.8781 N";

    // A picture of 3000 x 2000 dots in noise, which packs badly, as a camera's does.
    private const string Camera = """
        async () => {
          const canvas = document.createElement('canvas');
          canvas.width = 3000; canvas.height = 2000;
          const ink = canvas.getContext('2d'), dots = ink.createImageData(3000, 2000);
          for (let i = 0, n = 7; i < dots.data.length; i++) { n = (n * 1103515245 + 12345) & 0x7fffffff; dots.data[i] = i % 4 === 3 ? 255 : n >> 16; }
          ink.putImageData(dots, 0, 0);
          const blob = await new Promise(done => canvas.toBlob(done, 'image/jpeg', 0.9));
          const reader = new FileReader();
          await new Promise(done => { reader.onload = done; reader.readAsDataURL(blob); });
          return reader.result.split(',')[1];
        }
        """;

    [Fact]
    public async Task Photo_TakenOffline_IsMadeSmallAndPlainAndSentLater()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var screens = await Screens.Open(chromium, "photo");
        var page = screens.Page;
        await Floor.MakeStore(page, wire.Url);
        var survey = await Floor.Begin(page);
        await Floor.AllSent(page);
        await Floor.ReadyForOffline(page);
        wire.Cut();
        await page.GetByText("Note, photo").ClickAsync();

        // What is no picture is told and not kept; so is what is too large, which comes between, so that each is seen to be told.
        var large = Path.Combine(server.Folder, "large.jpg");
        await using (var file = File.Create(large)) file.SetLength((40 << 20) + 1);
        await Refused("a.jpg", "no picture"u8.ToArray());
        await page.Locator("#photo").SetInputFilesAsync(large);
        await Assertions.Expect(page.GetByText("larger than 40 MiB")).ToBeVisibleAsync();
        await Refused("b.svg", "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray());
        async Task Refused(string name, byte[] bytes)
        {
            await page.Locator("#photo").SetInputFilesAsync(new FilePayload { Name = name, MimeType = "image/jpeg", Buffer = bytes });
            await Assertions.Expect(page.GetByText("no picture that this browser can open")).ToBeVisibleAsync();
        }

        var taken = WithPlace(Convert.FromBase64String(await page.EvaluateAsync<string>(Camera)));
        await page.Locator("#note").FillAsync("oil at the valve");
        await page.Locator("#photo").SetInputFilesAsync(new FilePayload { Name = "c.jpg", MimeType = "image/jpeg", Buffer = taken });
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("Photo of");
        await Assertions.Expect(page.Locator("a.stand")).ToContainTextAsync("2 to send");

        // It outlives the tab, is shown from the device, and goes to the server once.
        await page.ReloadAsync();
        await page.Locator("#tab-end").ClickAsync();
        var shown = page.Locator(".photos img");
        await Assertions.Expect(page.Locator(".photos figcaption")).ToContainTextAsync("oil at the valve");
        await page.WaitForFunctionAsync("() => document.querySelector('.photos img')?.naturalWidth > 0");
        Assert.InRange(await shown.EvaluateAsync<int>("i => Math.max(i.naturalWidth, i.naturalHeight)"), 400, 1600);
        await screens.Look("end");
        wire.Mend();
        await Floor.AllSent(page);
        using var zip = new System.IO.Compression.ZipArchive(new MemoryStream(await server.GetBytes("/api/export.zip")));
        var entry = Assert.Single(zip.Entries, e => e.FullName.StartsWith($"alder-corner-foods/{survey}.photos/", StringComparison.Ordinal));
        using var sent = new MemoryStream();
        await using (var stream = await entry.OpenAsync(TestContext.Current.CancellationToken)) await stream.CopyToAsync(sent, TestContext.Current.CancellationToken);
        var text = Encoding.Latin1.GetString(sent.ToArray());
        Assert.True(sent.Length < taken.Length / 2, $"{sent.Length} of {taken.Length} bytes");
        Assert.DoesNotContain(Place, text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exif", text, StringComparison.Ordinal);

        // A photo of the wrong thing is shown no more, on no device.
        await using var others = await Screens.Open(chromium, "other");
        await others.Page.GotoAsync(server.Url);
        await others.Page.GetByText("Alder Corner Foods").First.ClickAsync();
        await others.Page.Locator($"a[href='/survey/{survey}']").ClickAsync();
        await others.Page.Locator("#tab-end").ClickAsync();
        await Assertions.Expect(others.Page.Locator(".photos img")).ToHaveCountAsync(1);
        await page.Locator(".photos button").ClickAsync();
        await Assertions.Expect(page.Locator(".photos")).ToHaveCountAsync(0);
        await Floor.AllSent(page);
        await Floor.Exchange(others.Page);
        await Assertions.Expect(others.Page.Locator(".photos")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Photo_OfALeakBehindNoPanel_IsKeptOfflineAndShownOnOtherDevices()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var screens = await Screens.Open(chromium, "finding-photo");
        var page = screens.Page;
        await Floor.MakeStore(page, wire.Url);
        await Floor.AllSent(page);
        await Floor.ReadyForOffline(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "Findings", Exact = true }).ClickAsync();
        await page.Locator("#new-finding summary").ClickAsync();
        await page.Locator("#found-place").SelectOptionAsync(new SelectOptionValue { Index = 5 });
        await page.Locator("#found-spot").FillAsync("coil");
        await page.Locator("#found-who").FillAsync("Ada Brook");
        wire.Cut();
        await page.Locator("#found-add").ClickAsync();
        await page.Locator("input.photo").SetInputFilesAsync(new FilePayload { Name = "c.jpg", MimeType = "image/jpeg", Buffer = Convert.FromBase64String(await page.EvaluateAsync<string>(Camera)) });
        await Assertions.Expect(page.Locator("a.stand")).ToContainTextAsync("3 to send");
        await page.ReloadAsync();
        await page.WaitForFunctionAsync("() => document.querySelector('.finding .photos img')?.naturalWidth > 0");
        await screens.Look("kept");
        wire.Mend();
        await Floor.AllSent(page);

        await using var others = await Screens.Open(chromium, "other");
        await others.Page.GotoAsync(server.Url);
        await others.Page.GetByText("Alder Corner Foods").First.ClickAsync();
        await others.Page.GetByRole(AriaRole.Link, new() { Name = "Findings", Exact = true }).ClickAsync();
        await others.Page.WaitForFunctionAsync("() => document.querySelector('.finding .photos img')?.naturalWidth > 0");
        others.IsQuiet();
    }

    // The segment in which cameras write where a picture was taken (Exif, APP1), behind the first marker.
    private static byte[] WithPlace(byte[] jpeg)
    {
        byte[] text = [.. "Exif\0\0"u8, .. Encoding.ASCII.GetBytes(Place)];
        return [.. jpeg[..2], 0xFF, 0xE1, 0, (byte)(text.Length + 2), .. text, .. jpeg[2..]];
    }
}
