using System.Text;
using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

public class CaseListTests
{
    private const double Foot = 0.3048;

    private const string Evening = """
        tag,kind,lengths,circuit,system,refrigerant,product,doors,lineUp,name
        27A,open-case,12-12-8,A4,A,R-448A,fresh meat,,L1,Fresh meat
        27B,open-case,12-12,A4/A5,A,,fresh meat,,L1,
        30,door-case,12.5-12.5,B2,B,R448A,frozen,10,L2,Frozen
        31,island-case,12-12,B3,B,,ice cream,,,Ice cream
        33,service-case,8-8,A6,A,,deli,,,Deli
        W1,walk-in,10x14,A7,A,,dairy,,,Dairy cooler
        S1,self-contained,6,,,R-290,novelties,,,
        """;

    private static LayoutDocument Read(string text, CaseListOptions? options = null) =>
        CaseList.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "evening.csv", options);

    private static string[] Refusals(string text) =>
        [.. Assert.Throws<RefusedInputException>(() => Read(text)).Problems.Where(p => p.Severity == Severity.Error).Select(p => $"{p.Element}: {p.Field}: {p.Rule}")];

    [Fact]
    public void Read_EveningList_KeepsTagsSectionsCircuitsAndRefrigerants()
    {
        var plan = Read(Evening).Plan;
        Assert.True(plan.Schematic);
        Assert.Equal(["27A", "27B", "30", "31", "33", "W1", "S1"], plan.Fixtures.Select(f => f.Tag));
        var meat = plan.FindFixture("27A")!;
        Assert.Equal([12, 24, 32], meat.Sections.Select(s => Math.Round(s.To / Foot, 9)));
        Assert.Equal(["A4", "A5"], plan.FindFixture("27B")!.Sections.Select(s => s.Circuit));
        Assert.Equal("R-448A", plan.RefrigerantAt(plan.FindFixture("30")!));
        Assert.Equal("R-448A", plan.RefrigerantAt(plan.FindFixture("W1")!));
        Assert.Equal("R-290", plan.RefrigerantAt(plan.FindFixture("S1")!));
        Assert.Equal(10, plan.FindFixture("30")!.Doors);
        Assert.Equal(8, meat.Panels.Count);
    }

    // 12 ft = 3.6576 m and 8 ft = 2.4384 m exactly (international foot).
    [Fact]
    public void Read_ListInFeetForALayoutInMetres_HasItsLengthsInMetres()
    {
        var layout = Read("tag,kind,lengths\n1,open-case,12-8\nW1,walk-in,10x14\n", new CaseListOptions { Units = LengthUnit.Metre, ListUnits = LengthUnit.Foot });
        Assert.Equal(LengthUnit.Metre, layout.Plan.Units);
        Assert.Equal([3.6576, 6.096], layout.Plan.FindFixture("1")!.Sections.Select(s => Math.Round(s.To, 9)));
        Assert.Contains("[3.6576,2.4384]", layout.Root["fixtures"]!.ToJsonString(), StringComparison.Ordinal);
        var walkIn = layout.Plan.FindFixture("W1")!.Outline;
        Assert.Equal((3.048, 4.2672), (Math.Round(walkIn[2].X - walkIn[0].X, 4), Math.Round(walkIn[2].Y - walkIn[0].Y, 4)));
    }

    [Fact]
    public void Read_LineUp_IsJoinedEndToEnd()
    {
        var plan = Read(Evening).Plan;
        Assert.Equal(plan.FindFixture("27A")!.Front!.Points[1], plan.FindFixture("27B")!.Front!.Points[0]);
    }

    [Fact]
    public void Read_AnyList_LeavesAislesOfEightFeetBetweenWhatIsNotJoined()
    {
        var plan = Read(Evening).Plan;
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            var shape = PlanShapes.Polygon(plan.Fixtures[i].Outline);
            Assert.InRange(PlanShapes.Polygon(plan.Outline).ExteriorRing.Distance(shape), (8 * Foot) - 1e-6, 1000);
            foreach (var other in plan.Fixtures.Skip(i + 1).Where(f => f.LineUp is null || f.LineUp != plan.Fixtures[i].LineUp))
            {
                Assert.InRange(shape.Distance(PlanShapes.Polygon(other.Outline)), (8 * Foot) - 1e-6, 1000);
            }
        }
    }

    [Fact]
    public void Read_NinetyCases_MakesAPlausibleStore()
    {
        var text = new StringBuilder("tag,lengths,circuit,system\n");
        for (var i = 1; i <= 90; i++) text.Append(i).Append(",12-12-8,").Append((char)('A' + (i % 3))).Append(i % 7).Append(',').Append((char)('A' + (i % 3))).Append('\n');
        var plan = Read(text.ToString()).Plan;
        var (low, high) = Rings.Box(plan.Outline);
        Assert.InRange((high.X - low.X) / (high.Y - low.Y), 1.2, 1.5);
        Assert.InRange(high.X - low.X, 30, 150);
        Assert.Equal(90, plan.Fixtures.Count);
        Assert.Equal(["B", "C", "A"], plan.Systems.Select(s => s.Id));
    }

    [Theory]
    [InlineData(LengthUnit.Metre, "3.66-3.66", 7.32)]
    [InlineData(LengthUnit.Millimetre, "3660-3660", 7.32)]
    [InlineData(LengthUnit.Inch, "144-96", 6.096)]
    public void Read_OtherUnits_GiveTheSameLengths(LengthUnit unit, string lengths, double metres)
    {
        var plan = Read($"tag,lengths\n1,{lengths}\nW,10x14\n".Replace("10x14", unit == LengthUnit.Metre ? "7x4" : unit == LengthUnit.Inch ? "120x168" : "7000x4000", StringComparison.Ordinal), new CaseListOptions { Units = unit }).Plan;
        Assert.Equal(unit, plan.Units);
        Assert.Equal(metres, plan.Fixtures[0].Front!.Length, 1e-9);
    }

    [Theory]
    [InlineData("12-12-8", "12 12 8")]
    [InlineData("12+12+8", "12 12 8")]
    [InlineData("12' 12' 8'", "12 12 8")]
    [InlineData("12 ft - 12 ft", "12 12")]
    [InlineData("3 x 12", "12 12 12")]
    [InlineData("2x12-8", "12 12 8")]
    [InlineData("8'6\"-12", "8.5 12")]
    [InlineData("12'6\"-8'", "12.5 8")]
    [InlineData("12' 6\" + 8'", "12.5 8")]
    [InlineData("12'6 1/2\"-8'", "12.542 8")]
    [InlineData("12' 6-1/2\" 8'", "12.542 8")]
    [InlineData("12'6 5/4\"", null)]
    [InlineData("12–8", "12 8")]
    [InlineData("12,8", "12 8")]
    [InlineData("twelve", null)]
    [InlineData("12-", null)]
    [InlineData("-12", null)]
    [InlineData("1e3", null)]
    [InlineData("99x12", null)]
    public void Sections_AsPeopleWriteThem_AreRead(string cell, string? lengths) =>
        Assert.Equal(lengths, CaseLengths.Sections(cell, false) is { } read ? string.Join(' ', read.Select(Say.Number)) : null);

    [Fact]
    public void Sections_DecimalComma_IsNoSeparator() => Assert.Equal([3.66, 2.44], CaseLengths.Sections("3,66-2,44", true)!);

    [Fact]
    public void Read_SemicolonsTabsAndCapitals_GiveTheSamePlan()
    {
        var plain = Read(Evening);
        foreach (var separator in new[] { ';', '\t' })
        {
            var other = Read('\uFEFF' + Evening.Replace(',', separator).Replace("tag", "TAG", StringComparison.Ordinal).Replace("\n", "\r\n", StringComparison.Ordinal));
            Assert.Equal(LayoutWriter.Text(plain.Root), LayoutWriter.Text(other.Root));
        }
    }

    [Fact]
    public void Read_FaultyRows_AreAllToldAtOnce() => Assert.Equal(
        [
            "row 2: tag: required", "row 3: kind: word", "row 4: lengths: lengths", "row 5: lengths: lengths", "row 6: lengths: number-range",
            "row 7: lengths: required", "row 8: doors: number-range", "row 9: circuit: circuit-count", "row 11: tag: tag-unique",
            "row 11: system: circuit-system", "row 12: refrigerant: system-refrigerant",
        ],
        Refusals("""
            tag,kind,lengths,circuit,system,refrigerant,doors
            ,open-case,12,,,,
            2,openish,12,,,,
            3,open-case,2012-12-08,,,,
            4,walk-in,12,,,,
            5,open-case,3660,,,,
            6,open-case,,,,,
            7,door-case,12,,,,many
            8,open-case,12-12-12,A1/A2,,,
            9,open-case,12,A1,A,R-448A,
            9,open-case,12,A1,B,,
            10,open-case,12,A9,A,R-404A,
            """));

    /// <summary>A list pasted from a spreadsheet: lengths with marks are read, and one row that can't be told hides no other's fault.</summary>
    [Fact]
    public void Read_PastedWithInchMarks_ReadsThemAndTellsEveryFaultyRow()
    {
        Assert.Equal([12.5, 20.5], Read("tag\tkind\tlengths\n1\topen-case\t12'6\"-8'\n").Plan.Fixtures[0].Sections.Select(s => Math.Round(s.To / Foot, 6)));
        Assert.Equal(
            ["row 3: : csv-quote", "row 2: lengths: lengths", "row 4: kind: word"],
            Refusals("tag\tkind\tlengths\n1\topen-case\ttwelve\n2\topen-case\t\"12\n3\topenish\t12\n4\topen-case\t12'6\"-8'\n"));
    }

    [Fact]
    public void Read_MissingColumns_NamesThem() => Assert.Equal([": tag: required", ": lengths: required"], Refusals("case,length\n1,12\n"));

    [Fact]
    public void Read_WithoutKinds_WarnsAndTakesTheLikely()
    {
        var document = Read("tag,lengths,doors\n1,12-12,\n2,12.5,5\n3,10x14,\n4,3x12,\n");
        Assert.Equal([FixtureKind.OpenCase, FixtureKind.DoorCase, FixtureKind.WalkIn, FixtureKind.OpenCase], document.Plan.Fixtures.Select(f => f.Kind));
        Assert.Equal(4, document.Warnings.Count(w => w.Rule == "no-kind"));
        Assert.Equal("row 2", document.Warnings[0].Element);
    }

    [Fact]
    public void Read_NamesThatClash_GetIdsOfTheirOwn()
    {
        var plan = Read("tag,lengths,circuit,system\nA,12,A,A\n27 A/é,12,A,A\n27 A/è,12,E1,A\n").Plan;
        var ids = plan.Fixtures.Select(f => f.Id).Concat(plan.Circuits.Select(c => c.Id)).Concat(plan.Systems.Select(s => s.Id)).Concat(plan.Entrances.Select(e => e.Id)).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.Equal(["A", "27 A/é", "27 A/è"], plan.Fixtures.Select(f => f.Tag));
        Assert.Equal("A", plan.Circuits[0].Id);
    }

    [Theory]
    [InlineData("Quince Street.csv", "quince-street")]
    [InlineData("/tmp/x/List 7.case.csv", "list-7")]
    [InlineData("..csv", "csv")]
    [InlineData(null, "case-list")]
    public void LayoutId_OfAFileName_IsAllowed(string? file, string id) => Assert.Equal(id, NewIds.LayoutId(file));

    [Fact]
    public void Read_RefrigerantWithoutSystem_StillSetsTheGas()
    {
        var plan = Read("tag,lengths,refrigerant\n1,12,R-404A\n2,12,R-404A\n").Plan;
        Assert.Equal("R-404A", plan.RefrigerantAt(plan.Fixtures[1]));
        Assert.Equal("R-404A", Assert.Single(plan.Systems).Refrigerant);
    }

    // Any list of believable rows makes a layout that passes the checks, in every unit.
    [Fact]
    public void Read_AnyBelievableList_PassesTheChecks() => Gen.Select(
        Gen.Select(Gen.Int[0, 5], Gen.Int[4, 12].Array[1, 5], Gen.Int[0, 3], Gen.Int[1, 4]).Array[1, 30], Gen.Enum<LengthUnit>()).Sample((rows, unit) =>
    {
        string Length(int feet) => (unit switch { LengthUnit.Metre => feet * 0.3048m, LengthUnit.Foot => feet, LengthUnit.Inch => feet * 12, _ => feet * 304.8m }).ToString(System.Globalization.CultureInfo.InvariantCulture);
        var text = new StringBuilder("tag,kind,lengths,lineUp,circuit,system\n");
        for (var i = 0; i < rows.Length; i++)
        {
            var (kind, lengths, lineUp, system) = rows[i];
            var walkIn = (FixtureKind)kind == FixtureKind.WalkIn;
            var cell = walkIn ? $"{Length(lengths[0] + 4)}x{Length(lengths[^1] + 6)}" : string.Join('-', lengths.Select(Length));
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{i},{((FixtureKind)kind).Kebab()},{cell},{(lineUp == 0 ? "" : "L" + lineUp)},{(char)('A' + system)}{i % 3},{(char)('A' + system)}\n");
        }

        var document = Read(text.ToString(), new CaseListOptions { Units = unit });
        Assert.Equal(rows.Length, document.Plan.Fixtures.Count);
        Assert.DoesNotContain(document.Warnings, w => w.Rule is "no-overlap" or "inside-outline" or "front-blocked" or "sections-sum" or "units-plausible");
    }, iter: 100);
}
