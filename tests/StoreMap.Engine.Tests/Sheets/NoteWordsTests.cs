using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Tests.Routing;

namespace StoreMap.Tests.Sheets;

public class NoteWordsTests
{
    [Fact]
    public void Panels_OnOneCaseInARow_AreNamedTogetherInTheOrderOfOpening()
    {
        Assert.Equal("1B", DemoRoute.Plan.FindFixture("C2")!.Tag);
        Assert.Equal(["1B panel 1", "1A panels 5, 4", "1B panel 2"], PlaceWords.Panels(DemoRoute.Plan, Words.English, ["C2/1", "C1/5", "C1/4", "C2/2"]));
    }

    /// <summary>Safety groups of the refrigerants: ISO 817 and ASHRAE 34 (R-290 A3, R-1234yf A2L, R-448A and R-744 A1, R-717 B2L).</summary>
    [Theory]
    [InlineData(new[] { "R-448A" }, new string[0])]
    [InlineData(new[] { "R-290", "R-1234yf" }, new[] { "R-1234yf, R-290: flammable" })]
    [InlineData(new[] { "R-744", "R-290" }, new[] { "R-744", "R-290: flammable" })]
    [InlineData(new[] { "R-717" }, new[] { "R-717" })]
    public void Gases_OfAStore_NameTheRefrigerantThatTheCautionIsFor(string[] names, string[] begins)
    {
        var texts = CautionNotes.Gases([.. names.Select(n => Refrigerant.Find(n)!)], Words.English).ToList();
        Assert.Equal(begins.Length, texts.Count);
        Assert.All(begins.Zip(texts), p => Assert.StartsWith(p.First, p.Second, StringComparison.Ordinal));
    }

    /// <summary>1B (C2) faces the sales floor; a source above its front is told from the left end as its leaks are, one across the store is not.</summary>
    [Fact]
    public void LookLine_SourceAboveAFront_IsToldFromTheLeftEnd()
    {
        var fixture = DemoRoute.Plan.FindFixture("C2")!;
        var above = fixture.Front!.PointAt(2.0);
        var line = ZoneNotes.LookLine(DemoRoute.Plan, Words.English, new("C2", 0.9, "lines overhead here", above));
        Assert.Equal($"Look: lines overhead here, about {Lengths.Tape(DemoRoute.Plan.Units, fixture.FromLeft(2.0), 0.5)} from the left end of 1B", line);
        Assert.Equal("Look: lines overhead here", ZoneNotes.LookLine(DemoRoute.Plan, Words.English, new("C2", 0.9, "lines overhead here", above + new PlanPoint(0, 9))));
    }

    /// <summary>A page without room for all call-outs names the other likely leaks: one confirmed behind a panel had been a count only.</summary>
    [Fact]
    public void Callouts_CutAfterTheFirst_NameTheOtherLikelyLeaks()
    {
        var (net, located) = (DemoStudy.Study.Value.Visit, DemoStudy.Study.Value.Result);
        var told = ZoneNotes.Told(located).ToList();
        Assert.True(told.Count > 1);
        var others = string.Join(", ", told.Skip(1).Select(z => $"{LeakLetters.Of(located.Zones.ToList().IndexOf(z))} {DemoRoute.Plan.FindFixture(z.Fixture)!.Tag}"));
        Assert.Contains($"Gas also at {others}: see", Text(1), StringComparison.Ordinal);
        Assert.DoesNotContain("Gas also at", Text(9), StringComparison.Ordinal);

        string Text(int most)
        {
            var set = new SheetSet(DemoRoute.Plan, new SheetContext(), "2026-08-04");
            set.AddText(new SheetHead("summary", "Page", "Page"), [.. ZoneNotes.Callouts(DemoRoute.Plan, net, located, Words.English, most, brief: true)]);
            return string.Join(' ', System.Xml.Linq.XDocument.Parse(Assert.Single(set.Finish()).Svg).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value));
        }
    }

    /// <summary>What no place explains is looked for anew: there is no place to climb to, and so no caution for one.</summary>
    [Theory]
    [InlineData("en", "Gas at 1B", "its source not found: probe the case and the air round it again, no place explains its readings well.")]
    [InlineData("de", "Gas bei 1B", "Quelle nicht gefunden: am Möbel und in der Luft ringsum neu messen, keine Stelle erklärt die Messwerte gut.")]
    public void NextSteps_GasThatNoPlaceExplains_IsFoundAgainWithoutTheCautionForAPlace(string language, string where, string what)
    {
        var words = Words.For(language);
        var net = DemoStudy.Study.Value.Visit;
        string StepOf(bool unexplained, string look) => Assert.Single(
            NextSteps.Lines(DemoRoute.Plan, net, new([], [], [new("C2", 0.5, look, null) { Unexplained = unexplained }], [], [], null), [], [], words, 9), s => s.Contains(words.Remark(look), StringComparison.Ordinal));
        var again = StepOf(true, "probe the case and the air round it again, no place explains its readings well");
        Assert.StartsWith(where, again, StringComparison.Ordinal);
        Assert.EndsWith(what, again, StringComparison.Ordinal);
        Assert.DoesNotContain(words["next.find-caution"], again, StringComparison.Ordinal);
        Assert.EndsWith(words["next.find-caution"], StepOf(false, "lines overhead here"), StringComparison.Ordinal);
    }
}
