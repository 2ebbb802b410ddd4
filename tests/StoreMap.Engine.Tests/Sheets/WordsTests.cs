using System.Text.RegularExpressions;
using StoreMap.Plans;
using StoreMap.Routing;
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
    public void Languages_AllHaveTheSameKeysAndTheSamePlacesForValues() => Assert.All(Words.Languages, language =>
    {
        var words = Words.For(language);
        Assert.Equal(Words.English.Keys, words.Keys);
        Assert.All(words.Keys, key =>
        {
            Assert.NotEqual("", words[key].Trim());
            Assert.Equal(Places().Matches(Words.English[key]).Select(m => m.Value).Distinct().Order(), Places().Matches(words[key]).Select(m => m.Value).Distinct().Order());
        });
    });

    [Fact]
    public void German_IsNoCopyOfEnglish()
    {
        var same = Words.English.Keys.Where(k => Words.For("de")[k] == Words.English[k] && k.Contains("caution", StringComparison.Ordinal)).ToList();
        Assert.Empty(same);
        Assert.NotEqual(Words.English["report.safe"], Words.For("de")["report.safe"]);
    }

    /// <summary>Words for people stand in the word files alone: in the code no text of a drawing is a literal, and no literal reads like a
    /// phrase. Left out are markup, ids and classes, exceptions, and the names of faces.</summary>
    [Fact]
    public void Code_HoldsNoWordsForPeople()
    {
        var found = new List<string>();
        foreach (var file in Directory.EnumerateFiles(SourceTree.PathOf("src", "StoreMap.Engine", "Sheets"), "*.cs", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var name = Path.GetFileName(file);
            if (name is "SvgWriter.cs" or "Faces.cs" or "TrueTypeFace.cs" or "SheetLogo.cs") continue;
            foreach (var line in File.ReadLines(file))
            {
                var code = line.TrimStart();
                if (code.StartsWith("//", StringComparison.Ordinal) || code.Contains("throw ", StringComparison.Ordinal) || code.StartsWith("public string Attributes", StringComparison.Ordinal)) continue;
                foreach (var literal in Literals().Matches(code).Select(m => Values().Replace(m.Groups[1].Value, "")))
                {
                    var drawn = code.Contains(".Text(", StringComparison.Ordinal) && Word().IsMatch(literal) && !Key().IsMatch(literal);
                    if (Phrase().IsMatch(literal) || drawn) found.Add($"{name}: {literal}");
                }
            }
        }

        // Classes of a group are a list of names with a blank between.
        string[] classes = ["reading hit", "fixture ", "change "];
        Assert.DoesNotContain(found, f => !classes.Any(c => f.EndsWith(": " + c, StringComparison.Ordinal)) && !f.Contains("stroke", StringComparison.Ordinal));
    }

    [Fact]
    public void German_SheetsOfAJob_CarryNoEnglishPhraseOfTheWordFile()
    {
        var plan = SampleStore.Make(2);
        var visit = new SampleVisit(plan, 2);
        var context = new SheetContext { Language = "de" };
        Sheet[] sheets =
        [
            .. HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, context), .. LeakZoneSheet.Draw(plan, visit.Net, visit.Located, context),
            .. WalkSheet.Draw(plan, visit.Route, context), .. ReportPages.Manager(plan, visit.Net, visit.Located, null, context),
            .. ReportPages.Cards(plan, visit.Net, visit.Located, null, context), .. ReportPages.Record(plan, visit.Net, visit.Located, null, context),
        ];
        var german = Words.For("de");
        var english = Words.English.Keys.Where(k => Words.English[k] != german[k] && Words.English[k].Length > 8 && !Words.English[k].Contains('{', StringComparison.Ordinal)).Select(k => Words.English[k]).ToHashSet();
        Assert.All(sheets, s => Assert.Contains("xml:lang=\"de\"", s.Svg, StringComparison.Ordinal));
        Assert.All(sheets.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))), t => Assert.DoesNotContain(t.Text, english));
    }

    [Theory]
    [InlineData(
        "highest, 40 ppm, at 21 ft from the left end with fans on; drop D4 is 1 ft from the middle of the zone; seen here 2026-06-09 and 2026-07-07; it explains the 2.8 ppm at 13B and the 3 ppm at 13C",
        "Höchstwert 40 ppm bei 21 ft vom linken Ende, Lüfter an; Leitungsabgang D4 liegt 1 ft neben der Mitte der Zone; hier gesehen 2026-06-09 und 2026-07-07; das erklärt 2.8 ppm an 13B und 3 ppm an 13C")]
    [InlineData("Over a pit: tip at the floor along the base. Flammable charge: use a detector rated for it, no sparks.", "Über einer Grube: Spitze am Boden den Sockel entlang. Brennbare Füllung: dafür zugelassenes Messgerät, keine Funken.")]
    [InlineData("pipe run PL1, overhead", "Leitung PL1, über Kopf")]
    [InlineData("nobody wrote this down; pipe run PL1, overhead", "nobody wrote this down; pipe run PL1, overhead [en]")]
    public void Remark_InGerman_IsPutOverWholeOrMarkedAsEnglish(string english, string german)
    {
        Assert.Equal(german, Words.For("de").Remark(english));
        Assert.Equal(english, Words.English.Remark(english));
    }

    /// <summary>What the probe planner writes on a store of every kind of fixture is in the phrase book, whole.</summary>
    [Fact]
    public void German_NotesOfTheWalk_AreAllInThePhraseBook()
    {
        var german = Words.For("de");
        var notes = Enumerable.Range(0, 12).Select(seed => SampleStore.Make(seed)).SelectMany(p => ProbePlanner.Draft(p, new Protocol()).Points).Select(p => p.Note).OfType<string>().Distinct().ToList();
        Assert.True(notes.Count > 10);
        Assert.DoesNotContain(notes.Select(german.Remark), n => n.EndsWith("[en]", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.99, "almost certain")]
    [InlineData(0.96, "more than 9 in 10")]
    [InlineData(0.84, "about 8 in 10")]
    [InlineData(0.11, "about 1 in 10")]
    [InlineData(0.07, "about 1 in 15")]
    [InlineData(0.01, "less than 1 in 20")]
    public void Chance_OfAProbability_PromisesNoMoreThanIsKnown(double probability, string words) => Assert.Equal(words, Words.English.Chance(probability));

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

    [GeneratedRegex("(?:[wW]ords(?:\\.Say\\(|\\[)\\s*(?:[^\"\\]]*(?:\"[^\"]*\"[^\"\\]]*)?\\? )?|GetValueOrDefault\\(|(?=\"caution\\.))\"([a-z0-9-]+\\.[a-z0-9.-]*)\"")]
    private static partial Regex Asked();

    [GeneratedRegex("\"((?:[^\"\\\\]|\\\\.)*)\"")]
    private static partial Regex Literals();

    [GeneratedRegex(@"\{[^}]*\}")]
    private static partial Regex Values();

    [GeneratedRegex(@"\p{L}{2,} +\p{L}{2,}|\p{L}{3,} $")]
    private static partial Regex Phrase();

    [GeneratedRegex(@"\p{L}{3,}")]
    private static partial Regex Word();

    [GeneratedRegex(@"^[a-z0-9.-]+\.[a-z0-9.-]*$|^labels-[a-z-]+$")]
    private static partial Regex Key();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Places();
}
