using System.CommandLine;
using StoreMap.App.Shell;

namespace StoreMap.App;

/// <summary>The program's verbs.</summary>
internal static class Verbs
{
    public static RootCommand All(Host host)
    {
        var root = new RootCommand("Plans the probe route of a refrigerant-leak survey, maps its readings, and says where to look.") { Host.JsonOption };
        root.Add(Commands.CheckCommand.Create(host));
        root.Add(Commands.LocateCommand.Create(host));
        return root;
    }
}
