using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;

namespace StoreMap.Tests.Rules;

/// <summary>docs/THIRD-PARTY-NOTICES.md lists what is shipped, as the packages themselves state it.
/// To refresh it, run this test with STOREMAP_REFRESH=1.</summary>
public class ThirdPartyNoticesTests
{
    // What a package brought and the lock files don't know, since the package itself is not shipped.
    private const string TakenAsFiles = """

        Taken out of packages as files:

        | what | package | licence | copyright or authors |
        |---|---|---|---|
        | faces of the sheets | Avalonia.Fonts.Inter | OFL-1.1 | Inter Project Authors |
        | paths of the client's icons | Microsoft.FluentUI.AspNetCore.Components.Icons | MIT | © Microsoft Corporation. All rights reserved. |

        """;

    [Fact]
    public void Notices_ListEveryShippedPackageWithItsLicence()
    {
        var file = SourceTree.PathOf("docs", "THIRD-PARTY-NOTICES.md");
        var expected = Compose();
        if (Environment.GetEnvironmentVariable("STOREMAP_REFRESH") == "1") File.WriteAllText(file, expected);
        Assert.Equal(expected, File.ReadAllText(file));
    }

    private static string Compose()
    {
        var text = new StringBuilder("# Third-party notices\n\nPackages shipped with StoreMap, from the lock files of `src/`.\n\n| package | version | licence | copyright or authors |\n|---|---|---|---|\n");
        foreach (var (id, version) in Shipped())
        {
            var nuspec = XDocument.Load(Path.Combine(PackagesFolder(), id.ToLowerInvariant(), version, id.ToLowerInvariant() + ".nuspec"));
            string? Value(string name) => nuspec.Descendants().FirstOrDefault(e => e.Name.LocalName == name)?.Value.Trim();
            var owner = Value("copyright") is { Length: > 0 } c ? c : Value("authors");
            text.Append(CultureInfo.InvariantCulture, $"| {id} | {version} | {Value("license") ?? Value("licenseUrl") ?? "not stated"} | {owner?.ReplaceLineEndings(" ").Replace("|", "/", StringComparison.Ordinal)} |\n");
        }

        return text.Append(TakenAsFiles).ToString();
    }

    private static IEnumerable<(string Id, string Version)> Shipped()
    {
        var all = new SortedDictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var lockFile in Directory.GetFiles(SourceTree.PathOf("src"), "packages.lock.json", SearchOption.AllDirectories))
        {
            using var json = JsonDocument.Parse(File.ReadAllText(lockFile));
            foreach (var framework in json.RootElement.GetProperty("dependencies").EnumerateObject())
            foreach (var package in framework.Value.EnumerateObject())
            {
                if (package.Value.GetProperty("type").GetString() == "Project" || BuildOnly(package.Name)) continue;
                all[package.Name] = package.Value.GetProperty("resolved").GetString()!;
            }
        }

        return all.Select(p => (p.Key, p.Value));
    }

    private static bool BuildOnly(string id) => id is "Microsoft.CodeAnalysis.BannedApiAnalyzers" or "Microsoft.NET.ILLink.Tasks";

    private static string PackagesFolder() =>
        Environment.GetEnvironmentVariable("NUGET_PACKAGES")
        ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
}
