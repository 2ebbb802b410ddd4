using System.CommandLine;
using System.Reflection;
using System.Runtime.InteropServices;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Data;

namespace StoreMap.App.Commands;

/// <summary><c>version</c>: what is installed, for a call to whoever looks after it.</summary>
internal static class VersionCommand
{
    public static Command Create(Host host)
    {
        var command = new Command("version", "Says which version this is, on what it runs, and which data folders it reads.");
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, Run, cancel)));
        return command;
    }

    private static void Run(Session session)
    {
        // "0.1.0+commit": the commit is known when built from a checkout.
        var built = typeof(VersionCommand).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;
        var parts = built.Split('+');
        session.Document(() => new JsonObject
        {
            ["version"] = parts[0], ["commit"] = parts.Length > 1 ? parts[1] : null, ["database"] = StoreDatabase.NewestMigration,
            ["runtime"] = RuntimeInformation.FrameworkDescription, ["system"] = RuntimeInformation.RuntimeIdentifier,
        });
        session.Say($"StoreMap {built}, {RuntimeInformation.FrameworkDescription} on {RuntimeInformation.RuntimeIdentifier}");
        session.Say($"Data folders up to {StoreDatabase.NewestMigration}; older ones are brought forward after a backup.");
    }
}
