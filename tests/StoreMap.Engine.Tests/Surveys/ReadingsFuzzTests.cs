using System.Text;
using CsCheck;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Readings, logs, marks and tables with bytes changed, cut, doubled or swapped: each is read, or refused with problems that name a rule;
/// nothing else happens, and no row is lost in silence.</summary>
public class ReadingsFuzzTests
{
    private const string Rows = """"
        time,ppm,point,fixture,at,x,y,height,spot,air,gas,instrument,event,note
        2026-03-04 21:00:00,<1,B1,,,,,,,,,M1,,
        2026-03-04T21:00:30-06:00,14.5,,C2,12.5,,,,front,fans-on,R-448A,M1,,"by the ""valve"", low"
        2026-03-04 21:01:00,over,,I1,4,,,low,drain,fans-off,R-448A,M2,,
        2026-03-04 21:01:30,,,,,,,,,,,M1,zero,
        2026-03-04 21:02:00,-2,,,,80,50,mid,,defrost,,M1,,
        2026-03-04 21:02:30,>1000,C2-3,,,,,,,,,,,
        """";

    private const string Marks = "time,fixture,at,event\n2026-03-04 21:00:10,C2,0,start\n2026-03-04 21:00:20,,,pause\n2026-03-04 21:00:30,,,resume\n2026-03-04 21:01:00,C2,24,end\n2026-03-04 21:02:00,C1,3,\n";
    private const string Log = "time;ppm;gas\n2026-03-04 21:00:00;0,5;R-448A\n2026-03-04 21:00:01;12,5;R-448A\n2026-03-04 21:00:02;over;R-448A\n";
    private const string Table = "set,actual,factor\nR-134a,R-448A,1.25\nCO2,R-22,0.5\n";

    private static readonly Gen<Func<byte[], byte[]>> Damage = Gen.Select(Gen.Int[0, 5], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Byte).Select(
        (kind, a, b, value) => (Func<byte[], byte[]>)(bytes =>
        {
            if (bytes.Length == 0) return bytes;
            var (i, j) = ((int)(a * (bytes.Length - 1)), (int)(b * (bytes.Length - 1)));
            var (low, high) = (Math.Min(i, j), Math.Max(i, j));
            switch (kind)
            {
                case 0: return [.. bytes[..i], value, .. bytes[(i + 1)..]];
                case 1: return bytes[..i];
                case 2: return [.. bytes[..i], value, .. bytes[i..]];
                case 3: return [.. bytes[..low], .. bytes[high..]];
                case 4: return [.. bytes[..high], .. bytes[low..]];
                default: return [.. bytes[..i], .. ",\"\n;<"u8[(value % 5)..(value % 5 + 1)], .. bytes[i..]];
            }
        }));

    [Theory]
    [InlineData("readings")]
    [InlineData("log")]
    [InlineData("marks")]
    [InlineData("table")]
    public void Read_DamagedFile_IsReadOrRefusedByRule(string kind)
    {
        var whole = Encoding.UTF8.GetBytes(kind switch { "readings" => Rows, "log" => Log, "marks" => Marks, _ => Table });
        Damage.Array[1, 6].Sample(damages =>
        {
            var bytes = damages.Aggregate(whole, (b, damage) => damage(b));
            try
            {
                using var stream = new MemoryStream(bytes);
                switch (kind)
                {
                    case "readings":
                        var read = SurveyReader.Read(stream, "r.csv", TestStore.Plan, TestStore.Points);
                        Assert.All(read.Survey.Readings, r => Assert.True(double.IsFinite(r.Ppm) && r.Ppm >= 0 && double.IsFinite(r.Place.At.X + r.Place.At.Y)));
                        NetSurveyBuilder.Build(TestStore.Plan, read.Survey);
                        break;
                    case "log":
                        Assert.NotEmpty(LogCsv.Read(stream, "l.csv", TestStore.Plan).Samples);
                        break;
                    case "marks":
                        Assert.NotEmpty(MarksCsv.Read(stream, "m.csv", TestStore.Plan, TestStore.Points).Marks);
                        break;
                    default:
                        ResponsesCsv.Read(stream, "t.csv");
                        break;
                }
            }
            catch (RefusedInputException refused)
            {
                Assert.Contains(refused.Problems, p => p.Severity == Severity.Error);
                Assert.All(refused.Problems, p => Assert.False(string.IsNullOrWhiteSpace(p.Rule) || string.IsNullOrWhiteSpace(p.Message)));
            }
        }, iter: 4000, threads: 1);
    }

    private static readonly string[] Kinds = ["{0},5,B1,,", "{0},,B1,,", "{0},-3,B1,,", "{0},,,,zero", "{0},x,B1,,", "never,5,B1,,", "{0},5,,C9,"];

    // Each row ends as a reading, a zeroing, an error of its own, or in the count of those without a number.
    [Fact]
    public void Read_AnyMixOfRows_LosesNone() =>
        Gen.Int[0, Kinds.Length - 1].Select(i => Kinds[i]).Array[1, 18].Sample(rows =>
        {
            var text = "time,ppm,point,fixture,event\n" + string.Concat(rows.Select((r, i) => string.Format(System.Globalization.CultureInfo.InvariantCulture, r, FormattableString.Invariant($"2026-03-04 21:{i:00}")) + "\n"));
            var bad = rows.Count(r => r.Contains(",x,", StringComparison.Ordinal) || r.StartsWith("never", StringComparison.Ordinal) || r.Contains("C9", StringComparison.Ordinal));
            try
            {
                var read = TestStore.Read(text);
                Assert.Equal(0, bad);
                Assert.Equal(rows.Length, read.Survey.Readings.Count + read.Survey.Zeroed.Count + rows.Count(r => r == "{0},,B1,,"));
                if (rows.Contains("{0},,B1,,")) Assert.Contains(read.Warnings, w => w.Rule == "reading-missing");
            }
            catch (RefusedInputException refused)
            {
                var errors = refused.Problems.Where(p => p.Severity == Severity.Error).ToList();
                Assert.True(bad > 0 ? errors.Count == bad : errors.Single().Rule == "reading-none");
            }
        }, iter: 500, threads: 1);
}
