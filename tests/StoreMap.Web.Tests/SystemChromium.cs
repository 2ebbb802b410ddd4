namespace StoreMap.Tests;

/// <summary>The system's Chromium and how it is started.</summary>
internal static class SystemChromium
{
    public const string Path = "/usr/bin/chromium";

    /// <summary>Nothing but the page itself may go out: this browser's own look-ups are off.</summary>
    public static IReadOnlyList<string> Switches { get; } =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];
}
