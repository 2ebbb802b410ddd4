using System.CommandLine;
using StoreMap.App.Commands;
using StoreMap.App.Shell;

namespace StoreMap.App;

/// <summary>The program's verbs.</summary>
internal static class Verbs
{
    public static RootCommand All(Host host)
    {
        var root = new RootCommand("Plans the probe route of a refrigerant-leak survey, maps its readings, and says which panel to lift.")
        {
            Host.JsonOption,
            DemoCommand.Create(host),
            CheckCommand.Create(host),
            ImportCommand.Create(host),
            RouteCommand.Create(host),
            LogCommand.Create(host),
            MapCommand.Create(host),
            LocateCommand.Create(host),
            CompareCommand.Create(host),
            ReportCommand.Create(host),
            InterpolateCommand.Create(host),
            ContourCommand.Create(host),
            CalibrateCommand.Create(host),
            TrendCommand.Create(host),
            ServeCommand.Create(host),
            VersionCommand.Create(host),
        };
        foreach (var command in DataCommands.All(host)) root.Add(command);
        return root;
    }
}
