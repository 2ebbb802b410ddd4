using System.Text.RegularExpressions;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.Sheets;

public partial class WordsTests
{
    [Fact]
    public void English_HasEveryKeyThatTheSheetsAskFor()
    {
        var files = Directory.EnumerateFiles(SourceTree.PathOf("src", "StoreMap.Engine", "Sheets"), "*.cs", SearchOption.AllDirectories);
        var sources = files.Select(File.ReadAllText).ToList();
        var asked = sources.SelectMany(f => Asked().Matches(f).Select(m => m.Groups[1].Value)).Distinct().Order(StringComparer.Ordinal).ToList();
        Assert.NotEmpty(asked);
        // A key that ends in a point is a stem to which the name of a value is added.
        Assert.All(asked, key => Assert.True(key.EndsWith('.') ? Words.English.Keys.Any(k => k.StartsWith(key, StringComparison.Ordinal)) : Words.English.Keys.Contains(key), key));
        Assert.All(Words.English.Keys, key => Assert.True(sources.Any(f => f.Contains($"\"{key}\"", StringComparison.Ordinal)) || asked.Any(a => a.EndsWith('.') && key.StartsWith(a, StringComparison.Ordinal)), $"'{key}' is never used"));
    }

    [Fact]
    public void English_NamesEveryKindOfThing()
    {
        Has<FixtureKind>("fixture.");
        Has<EquipmentKind>("equipment.");
        Has<AirState>("air.");
        Has<Spot>("spot.");
        Has<ProbeHeight>("height.");
        Has<ProbePass>("pass.");
        Has<InstrumentKind>("instrument.");
        Has<LegendSymbol>("legend.");
    }

    [Fact]
    public void Say_UnderAnyCulture_PutsValuesIn() => Assert.Equal("2 of 9", Words.English.Say("title.sheet-of", 2, 9));

    private static void Has<T>(string stem)
        where T : struct, Enum => Assert.All(Enum.GetValues<T>(), value => Assert.Contains(stem + value.Kebab(), Words.English.Keys));

    [GeneratedRegex("""(?:[wW]ords(?:\.Say\(|\[)\s*|(?="caution\.))"([a-z0-9.-]+)""" + "\"")]
    private static partial Regex Asked();
}
