using System.Text;
using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>RFC 4180 sections 2.1–2.7, and the dialects spreadsheets write in countries with a decimal comma.</summary>
public class CsvTableTests
{
    private static CsvTable Read(string text, Encoding? encoding = null)
    {
        encoding ??= new UTF8Encoding(false);
        return CsvTable.Read(new MemoryStream([.. encoding.GetPreamble(), .. encoding.GetBytes(text)]), "log.csv");
    }

    private static string[] Rules(Action read) =>
        [.. Assert.Throws<RefusedInputException>(read).Problems.Select(p => $"{p.Element}: {p.Rule}")];

    [Theory]
    [InlineData("a,b\r\n1,2\r\n")]
    [InlineData("a;b\n1;2")]
    [InlineData("a\tb\r1\t2\r")]
    [InlineData("sep=;\r\na;b\r\n1;2\r\n")]
    [InlineData("\r\n a , b ,,\r\n 1 , 2 ,,\r\n,,\r\n")]
    public void Read_UsualDialects_GivesTheSameTable(string text)
    {
        var table = Read(text);
        Assert.Equal(["a", "b"], table.Header);
        Assert.Equal(["1", "2"], Assert.Single(table.Rows).Cells);
    }

    public static TheoryData<string> EncodingNames => ["utf-8", "utf-8-bom", "utf-16", "utf-16BE", "utf-16-bare"];

    [Theory]
    [MemberData(nameof(EncodingNames))]
    public void Read_Encodings_KeepsLetters(string name)
    {
        Encoding encoding = name switch
        {
            "utf-8" => new UTF8Encoding(false),
            "utf-8-bom" => new UTF8Encoding(true),
            "utf-16" => new UnicodeEncoding(false, true),
            "utf-16BE" => new UnicodeEncoding(true, true),
            _ => new UnicodeEncoding(false, false),
        };
        Assert.Equal("Käse", Read("id,note\n1,Käse\n", encoding).Rows[0].Cells[1]);
    }

    [Fact]
    public void Read_Latin1Bytes_WarnsAndReads()
    {
        var table = Read("id,note\n1,4 °C\n", Encoding.Latin1);
        Assert.Equal("4 °C", table.Rows[0].Cells[1]);
        Assert.Equal("csv-encoding", Assert.Single(table.Warnings).Rule);
    }

    [Fact]
    public void Read_QuotedCells_HoldSeparatorsMarksAndLineBreaks()
    {
        var table = Read("id,note\n1,\"a,b \"\"q\"\"\nnext\"\n\n2,x\n");
        Assert.Equal("a,b \"q\"\nnext", table.Rows[0].Cells[1]);
        Assert.Equal([2, 4], table.Rows.Select(r => r.Number));
    }

    [Theory]
    [InlineData("", ": csv-header")]
    [InlineData("a,b\n1, \"x\"\n2,x\n", "row 2: csv-quote")]
    [InlineData("a,b\n1,\"12\" from\" end\n2,x\n", "row 2: csv-quote")]
    [InlineData("a,\"b\n1,2\n", "row 1: csv-quote")]
    [InlineData("a,b\n1,2\n3,\"open", "row 3: csv-quote")]
    [InlineData("a,b\n1,\"open\n2\n3,\"x\",\n4,\"y\n", "row 2: csv-quote|row 3: csv-row-length|row 5: csv-quote")]
    [InlineData("a,b\n1,\"open\n2,x\n", "row 2: csv-quote")]
    [InlineData("a,A\n1,2\n", "row 1: csv-header")]
    [InlineData("a,,b\n1,2,3\n", "row 1: csv-header")]
    [InlineData("a,b\n1\n1,2\n1,2,3\n", "row 2: csv-row-length|row 4: csv-row-length")]
    [InlineData("a,b\n1,\0\n", ": csv-text")]
    public void Read_Malformed_NamesEveryRow(string text, string expected) =>
        Assert.Equal(expected, string.Join("|", Rules(() => Read(text))));

    [Theory]
    [InlineData("tag\tlengths\tname\n1\t12'6\"-8'\tA\n2\t12\t\"B \"\"q\"\"\"\n")]
    [InlineData("tag,lengths,name\n1,12'6\"-8',A\n2,12,\"B \"\"q\"\"\"\n")]
    [InlineData("tag;lengths;name\r\n1;12'6\"-8';A\r\n2;12;\"B \"\"q\"\"\"\r\n")]
    public void Read_MarksInsideCells_AreTakenAsTheyStand(string text)
    {
        var table = Read(text);
        Assert.Equal(["1", "12'6\"-8'", "A"], table.Rows[0].Cells);
        Assert.Equal(["2", "12", "B \"q\""], table.Rows[1].Cells);
    }

    [Fact]
    public void Read_OverTheLimits_Refuses()
    {
        var text = "a,b\n" + string.Concat(Enumerable.Repeat("1,2\n", 11));
        Assert.Equal([": csv-rows"], Rules(() => CsvTable.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), null, new CsvLimits(Rows: 10))));
        Assert.Equal([": csv-size"], Rules(() => CsvTable.Read(new MemoryStream(new byte[2000]), null, new CsvLimits(Bytes: 1000))));
    }

    [Theory]
    [InlineData("v\n1.5\n2\n", 1.5, 2)]
    [InlineData("v;w\n1,5;\n1,000;\n", 1.5, 1)]
    [InlineData("v,w\n\"1,5\",\n\"-2,25\",\n", 1.5, -2.25)]
    [InlineData("v\n1e1\n+3\n", 10, 3)]
    public void Numbers_OneWayOfDecimals_Parses(string text, double first, double second)
    {
        var table = Read(text);
        var errors = new List<Problem>();
        var numbers = CsvNumbers.Of(table, [0], errors);
        Assert.Empty(errors);
        Assert.Equal([first, second], table.Rows.Select(r => numbers.Parse(r.Cells[0])!.Value));
    }

    [Theory]
    [InlineData("v;w\n1,5;\n1.25;\n")]
    [InlineData("v,w\n\"1,500\",\n")]
    public void Numbers_MixedOrAmbiguous_IsAnError(string text)
    {
        var errors = new List<Problem>();
        CsvNumbers.Of(Read(text), [0], errors);
        Assert.Equal(("row 2", "v", "csv-decimals"), (errors.Single().Element, errors.Single().Field, errors.Single().Rule));
    }

    [Theory]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("1e999")]
    [InlineData("1 000")]
    [InlineData("")]
    [InlineData("0x10")]
    public void Numbers_NotFinite_IsNull(string text) => Assert.Null(new CsvNumbers(false).Parse(text));

    [Fact]
    public void Read_AnyQuotedCells_ComeBackAsWritten() =>
        Gen.String[Gen.Char["ab,;\t\"\n é"], 0, 8].Array[1, 4].Array[1, 6].Sample(rows =>
        {
            var width = rows.Max(r => r.Length);
            var header = string.Join(',', Enumerable.Range(0, width).Select(i => $"h{i}"));
            var body = rows.Select(r => string.Join(',', Enumerable.Range(0, width)
                .Select(i => "\"" + (i < r.Length ? r[i] : "").Replace("\"", "\"\"", StringComparison.Ordinal) + "\"")));
            var table = Read(header + "\n" + string.Join('\n', body) + "\n");
            var wanted = rows.Select(r => r.Select(c => c.Trim()).ToArray()).Where(r => r.Any(c => c.Length > 0)).ToArray();
            Assert.Equal(wanted.Length, table.Rows.Count);
            foreach (var (row, want) in table.Rows.Zip(wanted)) Assert.Equal(want, row.Cells.Take(want.Length));
        });
}
