using System.Xml.Linq;
using NetArchTest.Rules;
using StoreMap.Plans;

namespace StoreMap.Tests.Rules;

/// <summary>The rooms of the engine use one another one way only, and the engine stays fit for the browser.</summary>
public class ArrowTests
{
    private static readonly string[] Rooms = ["Plans", "Editing", "Walking", "Routing", "Surveys", "Air", "Fields", "Zones", "History", "Sheets"];

    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["Plans"] = [],
        ["Editing"] = ["Plans"],
        ["Walking"] = ["Plans"],
        ["Routing"] = ["Walking", "Plans"],
        ["Surveys"] = ["Plans"],
        ["Air"] = ["Plans"],
        ["Fields"] = ["Air", "Walking", "Surveys", "Plans"],
        ["Zones"] = ["Fields", "Air", "Walking", "Surveys", "Plans"],
        ["History"] = ["Zones", "Fields", "Air", "Walking", "Surveys", "Plans"],
        ["Sheets"] = [.. Rooms.Where(r => r != "Sheets")],
    };

    public static TheoryData<string> AllRooms => [.. Rooms];

    [Theory]
    [MemberData(nameof(AllRooms))]
    public void Room_UsesOnlyRoomsBelowIt(string room)
    {
        var forbidden = Rooms.Except(MayUse[room]).Where(r => r != room).Select(r => $"StoreMap.{r}").ToArray();
        if (forbidden.Length == 0) return;
        var result = TypesOf(room).ShouldNot().HaveDependencyOnAny(forbidden).GetResult();
        Assert.True(result.IsSuccessful, $"{room} reaches up: {string.Join(", ", result.FailingTypeNames ?? [])}");
    }

    [Fact]
    public void Guard_SeesAnArrowThatIsThere()
    {
        var result = TypesOf("Surveys").ShouldNot().HaveDependencyOnAny("StoreMap.Plans").GetResult();
        Assert.False(result.IsSuccessful);
    }

    [Fact]
    public void RootValues_UseNoRoom()
    {
        var result = Types.InAssembly(typeof(Plan).Assembly).That().ResideInNamespaceMatching("^StoreMap$")
            .ShouldNot().HaveDependencyOnAny([.. Rooms.Select(r => $"StoreMap.{r}")]).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", result.FailingTypeNames ?? []));
    }

    [Fact]
    public void Engine_ReferencesNoNativeOrDesktopAssembly()
    {
        var names = typeof(Plan).Assembly.GetReferencedAssemblies().Select(a => a.Name!).Order().ToArray();
        string[] unfit = ["Skia", "Avalonia", "System.Console", "Diagnostics.Process", "System.IO.FileSystem"];
        Assert.DoesNotContain(names, n => unfit.Any(u => n.Contains(u, StringComparison.Ordinal)));
    }

    [Fact]
    public void Engine_DeclaresTheBrowserAsSupported()
    {
        // The platform analyzer then fails the build on any call that a browser cannot make.
        var project = XDocument.Load(SourceTree.PathOf("src", "StoreMap.Engine", "StoreMap.Engine.csproj"));
        Assert.Contains(project.Descendants("SupportedPlatform"), e => (string?)e.Attribute("Include") == "browser");
    }

    private static PredicateList TypesOf(string room) =>
        Types.InAssembly(typeof(Plan).Assembly).That().ResideInNamespace($"StoreMap.{room}");
}
