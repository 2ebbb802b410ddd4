using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Text.RegularExpressions;

namespace StoreMap.Tests;

/// <summary>The icons that the client carries are those of the package they were taken from.
/// To take them anew, run this test with STOREMAP_REFRESH=1.</summary>
public sealed partial class IconTests
{
    private const byte LoadString = 0x72;

    [Fact]
    public void Icons_AreThePackages()
    {
        var file = Path.Combine(Checkout.Root, "src", "StoreMap.Web", "Shared", "IconPaths.cs");
        var text = File.ReadAllText(file);
        var package = ThePackages(Icon().Matches(text).Select(m => m.Groups["name"].Value).ToHashSet());
        var expected = Icon().Replace(text, m => $"public const string {m.Groups["name"].Value} = \"{package[m.Groups["name"].Value]}\";");
        if (Environment.GetEnvironmentVariable("STOREMAP_REFRESH") == "1") File.WriteAllText(file, expected);
        Assert.NotEmpty(package);
        Assert.Equal(expected, File.ReadAllText(file));
    }

    [GeneratedRegex("public const string (?<name>\\w+) = \"[^\"]*\";")]
    private static partial Regex Icon();

    // Each icon is a class within that of its size, and its constructor hands on its markup as a text.
    private static Dictionary<string, string> ThePackages(HashSet<string> names)
    {
        using var pe = new PEReader(File.OpenRead(Assembly()));
        var metadata = pe.GetMetadataReader();
        var found = new Dictionary<string, string>();
        foreach (var type in metadata.TypeDefinitions.Select(metadata.GetTypeDefinition))
        {
            var name = metadata.GetString(type.Name);
            if (!names.Contains(name) || !type.IsNested || metadata.GetString(metadata.GetTypeDefinition(type.GetDeclaringType()).Name) != "Size24") continue;
            var body = type.GetMethods().Select(metadata.GetMethodDefinition).Where(m => m.RelativeVirtualAddress != 0).Select(m => pe.GetMethodBody(m.RelativeVirtualAddress).GetILBytes()!);
            found[name] = Markup().Match(body.SelectMany(il => Texts(metadata, il)).First(t => t.StartsWith("<path", StringComparison.Ordinal))).Groups["path"].Value;
        }

        return found;
    }

    private static IEnumerable<string> Texts(MetadataReader metadata, byte[] il)
    {
        for (var i = 0; i + 4 < il.Length; i++)
        {
            // A token of a text has 0x70 as its highest byte.
            if (il[i] == LoadString && il[i + 4] == 0x70) yield return metadata.GetUserString((UserStringHandle)System.Reflection.Metadata.Ecma335.MetadataTokens.Handle(BitConverter.ToInt32(il, i + 1)));
        }
    }

    [GeneratedRegex("^<path d=\"(?<path>[^\"]*)\"/>$")]
    private static partial Regex Markup();

    private static string Assembly()
    {
        var packages = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
        var versions = Path.Combine(packages, "microsoft.fluentui.aspnetcore.components.icons");
        var version = VersionOf().Match(File.ReadAllText(Path.Combine(Checkout.Root, "Directory.Packages.props"))).Groups["version"].Value;
        return Path.Combine(versions, version, "lib", "net8.0", "Microsoft.FluentUI.AspNetCore.Components.Icons.Regular.dll");
    }

    [GeneratedRegex("<IconsVersion>(?<version>[^<]+)</IconsVersion>")]
    private static partial Regex VersionOf();
}
