using StoreMap.Data;

namespace StoreMap.App.Commands;

/// <summary>Turns what a data folder can be refused for into problems.</summary>
internal static class Refusing
{
    public static T Newer<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (NewerDatabaseException newer)
        {
            throw Refused("--data", "database-version", newer.Message);
        }
        catch (InvalidDataException bad)
        {
            throw Refused(null, "backup", bad.Message);
        }
    }

    public static RefusedInputException Refused(string? element, string rule, string message) => new([new Problem(Severity.Error, null, element, null, null, rule, message)]);

    /// <summary>Opens a data folder that must be there.</summary>
    public static StoreDatabase Existing(string folder) => File.Exists(Path.Combine(folder, StoreDatabase.FileName))
        ? Newer(() => StoreDatabase.Open(folder, TimeProvider.System))
        : throw Refused("--data", "data-folder", $"There is no StoreMap data in {folder}.");
}
