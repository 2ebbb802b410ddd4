namespace StoreMap.Tests;

/// <summary>How long the tests may take that get surer the longer they run.</summary>
internal static class Effort
{
    /// <summary>True with <c>STOREMAP_LONG=1</c>.</summary>
    public static bool Long { get; } = Environment.GetEnvironmentVariable("STOREMAP_LONG") == "1";

    /// <summary>How often a tab or a server is killed: 50 times with <c>STOREMAP_LONG=1</c>, else as often as a run of all tests bears, since
    /// each kill costs a start.</summary>
    public static int Kills { get; } = Long ? 50 : 10;
}
