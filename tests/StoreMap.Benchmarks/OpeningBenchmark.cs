using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using StoreMap.Tests;

namespace StoreMap.Benchmarks;

/// <summary>How long the client takes to open, from the address entered to the list of stores, with a server on this machine: in a browser
/// that has never seen it, in the same browser once more, and in that browser ended and started anew with what it keeps. Beside each time the
/// processor seconds of the whole browser, which the machine's other work leaves alone, and for the first the bytes that came.</summary>
internal static class OpeningBenchmark
{
    private const int Runs = 5;

    private static readonly string[] Kinds = ["empty browser", "opened again", "browser anew"];

    /// <param name="program">The program that serves, a <c>storemap.dll</c>; null for the one that was built with this benchmark.</param>
    public static async Task<int> Run(string? program)
    {
        using var playwright = await Playwright.CreateAsync();
        await using var server = await ServerProcess.Start(program);
        var times = Kinds.ToDictionary(kind => kind, _ => new List<(double Seconds, double Processor)>());
        double bytes = 0;
        for (var run = 0; run < Runs; run++)
        {
            var profile = Directory.CreateTempSubdirectory("storemap-opening-").FullName;
            await using (var browser = await Browser(playwright, profile))
            {
                var page = browser.Pages[0];
                times[Kinds[0]].Add(await Open(page, server.Url));
                bytes = await page.EvaluateAsync<double>("() => performance.getEntriesByType('resource').reduce((sum, r) => sum + r.transferSize, 0)");
                await page.WaitForFunctionAsync("() => navigator.serviceWorker.controller !== null");
                // The browser puts its compiled code aside a while later.
                await Task.Delay(3000);
                await page.GotoAsync("about:blank");
                times[Kinds[1]].Add(await Open(page, server.Url));
            }

            await using (var browser = await Browser(playwright, profile)) times[Kinds[2]].Add(await Open(browser.Pages[0], server.Url));
            Directory.Delete(profile, recursive: true);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Processor cores {Environment.ProcessorCount}, load average (1, 5, 15 minutes) {Load()}"));
        Console.WriteLine($"{"",-15} best s  median s  processor s (least)");
        foreach (var (kind, all) in times)
        {
            var sorted = all.Select(t => t.Seconds).Order().ToList();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind,-15} {sorted[0],6:0.00} {sorted[Runs / 2],9:0.00} {all.Min(t => t.Processor),12:0.00}"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Fetched by an empty browser: {bytes / 1e6:0.0} MB."));
        return 0;
    }

    private static Task<IBrowserContext> Browser(IPlaywright playwright, string profile) =>
        playwright.Chromium.LaunchPersistentContextAsync(profile, new() { ExecutablePath = SystemChromium.Path, Headless = true, Args = SystemChromium.Switches });

    private static async Task<(double Seconds, double Processor)> Open(IPage page, string url)
    {
        var system = await page.Context.Browser!.NewBrowserCDPSessionAsync();
        var spent = await Processor(system);
        var began = Stopwatch.GetTimestamp();
        await page.GotoAsync(url, new() { WaitUntil = WaitUntilState.Commit });
        await page.Locator("#demo").WaitForAsync();
        return (Stopwatch.GetElapsedTime(began).TotalSeconds, await Processor(system) - spent);
    }

    private static async Task<double> Processor(ICDPSession system)
    {
        var info = await system.SendAsync("SystemInfo.getProcessInfo");
        return info!.Value.GetProperty("processInfo").EnumerateArray().Sum(p => p.GetProperty("cpuTime").GetDouble());
    }

    private static string Load() => File.Exists("/proc/loadavg") ? string.Join(' ', File.ReadAllText("/proc/loadavg").Split(' ')[..3]) : "unknown";
}
