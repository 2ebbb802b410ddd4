using System.Globalization;
using System.Text.Json;
using CsCheck;
using StoreMap.History;

namespace StoreMap.Tests.History;

/// <summary>Mann-Kendall and Sen slope against scipy and R (<c>Cases/stats</c>), pyMannKendall's own test, and counting by hand.</summary>
public class MannKendallTests
{
    private const double Tolerance = 1e-9;

    public static TheoryData<string> Series => ["s1_up_no_ties", "s2_noise", "s3_integer_ties", "s4_down_many_ties", "s5_uneven_days", "s6_short"];

    [Theory]
    [MemberData(nameof(Series))]
    public void Of_ReferenceSeries_EqualsTheLibraries(string name)
    {
        var (_, values) = Read(name);
        var expected = Expected(name);
        var test = MannKendall.Of(values);
        Assert.Equal(expected.GetProperty("n").GetInt32(), test.Count);
        Assert.Equal(expected.GetProperty("S").GetInt64(), test.S);
        Close(expected.GetProperty("varS").GetDouble(), test.Variance);
        Close(expected.GetProperty("Z").GetDouble(), test.Z);
        var exact = expected.TryGetProperty("p_exact", out var counted);
        if (test.Exact) Close(counted.GetDouble(), test.P);
        else Close(expected.GetProperty("p_two_sided").GetDouble(), test.P);
        if (exact) Close(counted.GetDouble(), MannKendall.ExactP(test.Count, test.S));
        Assert.Equal(exact && test.Count < 10, test.Exact);
    }

    [Theory]
    [MemberData(nameof(Series))]
    public void SenSlope_ReferenceSeries_EqualsTheLibraries(string name)
    {
        var (times, values) = Read(name);
        var line = SenSlope.Of(times, values);
        Close(Expected(name).GetProperty("sen_slope").GetDouble(), line.Slope);
        Close(Expected(name).GetProperty("sen_intercept").GetDouble(), line.Intercept);
    }

    [Theory]
    [InlineData(4, 0.08333)]
    [InlineData(5, 0.01667)]
    [InlineData(6, 0.00278)]
    public void Of_SteadyRise_HasTheExactP(int count, double p)
    {
        var test = MannKendall.Of([.. Enumerable.Range(0, count).Select(i => (double)i)]);
        Assert.True(test.Exact);
        Assert.Equal(p, test.P, 5e-6);
        Assert.Equal(2 / Enumerable.Range(1, count).Aggregate(1.0, (a, b) => a * b), test.P, 12);
    }

    [Fact]
    public void Of_MonthlyRainfall_EqualsPyMannKendallsTest()
    {
        var values = CaseFiles.Lines("stats/monthly_rainfall.csv").Skip(1).Select(l => l.Split(',')[2])
            .Select(v => v.Length == 0 ? double.NaN : double.Parse(v, CultureInfo.InvariantCulture)).ToArray();
        var test = MannKendall.Of(values);
        Assert.Equal(-1959, test.S);
        Close(4889800.333333333, test.Variance);
        Close(-0.8854562842589916, test.Z);
        Close(0.37591058740506833, test.P);
        Close(-0.03153167653875869, test.Tau);
        var months = Enumerable.Range(0, values.Length).Select(i => (double)i).ToArray();
        Close(-0.006369426752, SenSlope.Of(months, values).Slope);
        // That package closes the gaps of missing months before it fits.
        var present = values.Where(v => !double.IsNaN(v)).ToArray();
        Close(-0.0064516129032258064, SenSlope.Of(months[..present.Length], present).Slope);
    }

    [Fact]
    public void Of_AllEqual_ShowsNoTrend()
    {
        var test = MannKendall.Of([3, 3, 3, 3, 3]);
        Assert.Equal((0, 0.0, 1.0), (test.S, test.Z, test.P));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Of_TooFewValues_ShowsNoTrend(int count) => Assert.Equal(1, MannKendall.Of(new double[count]).P);

    [Fact]
    public void Of_AnySeries_DependsOnOrderOnly() => Gen.Int[-9, 9].Select(i => (double)i).Array[2, 14].Sample(values =>
    {
        var test = MannKendall.Of(values);
        var stretched = MannKendall.Of([.. values.Select(v => Math.Exp(v))]);
        var mirrored = MannKendall.Of([.. values.Select(v => -v)]);
        Assert.Equal((test.S, test.P), (stretched.S, stretched.P));
        Assert.Equal((-test.S, test.P), (mirrored.S, mirrored.P));
        Assert.InRange(test.P, 0, 1);
    });

    [Fact]
    public void SenSlope_OneTimeOnly_IsNotANumber() => Assert.True(double.IsNaN(SenSlope.Of([2, 2], [1, 5]).Slope));

    private static (double[] Times, double[] Values) Read(string name)
    {
        var rows = CaseFiles.Lines("stats/mk_series.csv").Select(l => l.Split(',')).Where(r => r[0] == name).ToArray();
        return ([.. rows.Select(r => double.Parse(r[1], CultureInfo.InvariantCulture))], [.. rows.Select(r => double.Parse(r[2], CultureInfo.InvariantCulture))]);
    }

    private static JsonElement Expected(string name) => JsonDocument.Parse(CaseFiles.Text("stats/mk_results.json")).RootElement.GetProperty(name);

    private static void Close(double expected, double actual) =>
        Assert.True(Math.Abs(expected - actual) <= Tolerance * Math.Max(1e-3, Math.Abs(expected)), $"expected {expected:R}, got {actual:R}");
}
