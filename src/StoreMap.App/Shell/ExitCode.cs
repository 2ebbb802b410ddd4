namespace StoreMap.App.Shell;

/// <summary>What the program tells its caller.</summary>
internal static class ExitCode
{
    public const int Done = 0;
    public const int RefusedInput = 1;
    public const int WrongUsage = 2;
    public const int Failure = 3;
    public const int Cancelled = 130;
}
