using CsCheck;
using StoreMap.Fields;
using StoreMap.Plans;
using static StoreMap.Tests.Fields.MeuseZinc;

namespace StoreMap.Tests.Fields;

public class OrdinaryKrigingTests
{
    private const double Tolerance = 1e-8;

    /// <summary>Isaaks and Srivastava 1989, chapter 12: C(h) = 10 exp(-0.3 h), estimate at (65, 137).</summary>
    private static readonly SamplePoint[] Textbook =
    [
        new(new PlanPoint(61, 139), 477), new(new PlanPoint(63, 140), 696), new(new PlanPoint(64, 129), 227), new(new PlanPoint(68, 128), 646),
        new(new PlanPoint(71, 140), 606), new(new PlanPoint(73, 141), 791), new(new PlanPoint(75, 128), 783),
    ];

    private static readonly VariogramModel TextbookModel = new(VariogramShape.Exponential, 0, 10, 1 / 0.3);

    private static readonly SamplePoint[] Square =
    [
        new(new PlanPoint(-0.5, -0.5), 1), new(new PlanPoint(0.5, -0.5), 2), new(new PlanPoint(-0.5, 0.5), 3), new(new PlanPoint(0.5, 0.5), 4),
    ];

    [Fact]
    public void Estimate_MeuseZinc_EqualsGstat()
    {
        OrdinaryKriging all = new(LogZinc, Model), sixteen = new(LogZinc, Model, 16);
        foreach (var row in Table("meuse_zinc_predictions"))
        {
            var at = new PlanPoint(row[2], row[3]);
            Close(row[5], all.Estimate(at).Value, Tolerance);
            Close(row[6], all.Estimate(at).Variance, Tolerance);
            Close(row[7], sixteen.Estimate(at).Value, Tolerance);
            Close(row[8], sixteen.Estimate(at).Variance, Tolerance);
        }
    }

    [Fact]
    public void Weights_TextbookExample_AreThePrintedOnes()
    {
        var weights = new OrdinaryKriging(Textbook, TextbookModel).Weights(new PlanPoint(65, 137));
        double[] printed = [0.1729, 0.3178, 0.1287, 0.0864, 0.1511, 0.0572, 0.0858];
        Assert.All(printed.Zip(weights), p => Assert.Equal(p.First, p.Second, 5e-5));
        Assert.Equal(1, weights.Sum(), 12);
    }

    [Fact]
    public void Estimate_TextbookExample_IsThePrintedOne()
    {
        var estimate = new OrdinaryKriging(Textbook, TextbookModel).Estimate(new PlanPoint(65, 137));
        Close(592.73, estimate.Value, 1e-4);
        Close(8.956, estimate.Variance, 1e-4);
    }

    [Theory]
    [InlineData(4, 2.5, 1.017767)]
    [InlineData(2, 1.5, 1.267767)]
    public void Estimate_SquareOfPoints_EqualsGstatsOwnTest(int count, double value, double variance)
    {
        var estimate = new OrdinaryKriging(Square[..count], new VariogramModel(VariogramShape.Spherical, 0, 1, 1)).Estimate(new PlanPoint(0, 0));
        Assert.Equal(value, estimate.Value, 10);
        Assert.Equal(variance, estimate.Variance, 5e-7);
    }

    [Fact]
    public void EstimateBlock_MeuseZinc_EqualsGstatsOwnTest()
    {
        var kriging = new OrdinaryKriging(Zinc, new VariogramModel(VariogramShape.Spherical, 2.42e4, 1.34e5, 800), 40);
        var block = kriging.EstimateBlock(new PlanPoint(181170, 333250), 40, 40);
        Assert.Equal(268.7324, block.Value, 5e-5);
        Assert.Equal(19568.76, block.Variance, 5e-3);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(16)]
    public void Estimate_AtASamplePoint_IsItsValueWithoutVariance(int? nearest)
    {
        var kriging = new OrdinaryKriging(LogZinc, Model, nearest);
        foreach (var sample in LogZinc)
        {
            Assert.Equal(sample.Value, kriging.Estimate(sample.At).Value, 9);
            Assert.Equal(0, kriging.Estimate(sample.At).Variance, 9);
        }
    }

    [Fact]
    public void Estimate_ShiftedValues_ShiftWithThem() =>
        (from values in Gen.Double[-5, 5].Array[7] from shift in Gen.Double[-100, 100] select (values, shift)).Sample(d =>
        {
            var at = new PlanPoint(66, 133);
            var plain = Textbook.Select((s, i) => s with { Value = d.values[i] }).ToArray();
            var moved = plain.Select(s => s with { Value = s.Value + d.shift }).ToArray();
            var a = new OrdinaryKriging(plain, TextbookModel).Estimate(at);
            var b = new OrdinaryKriging(moved, TextbookModel).Estimate(at);
            Assert.Equal(a.Value + d.shift, b.Value, 9);
            Assert.Equal(a.Variance, b.Variance, 9);
        });

    [Fact]
    public void Constructor_TwoPointsAtOnePlace_IsRefusedNamingThem()
    {
        var refused = Assert.Throws<ArgumentException>(() => new OrdinaryKriging([Square[0], Square[1], Square[0]], TextbookModel));
        Assert.Contains("1 and 3", refused.Message);
    }

    [Fact]
    public void Constructor_NoPoints_IsRefused() => Assert.Throws<ArgumentException>(() => new OrdinaryKriging([], TextbookModel));

    [Theory]
    [InlineData(-1, 1, 1)]
    [InlineData(0, 0, 1)]
    [InlineData(0, 1, 0)]
    [InlineData(double.NaN, 1, 1)]
    public void VariogramModel_ImpossibleParameters_AreRefused(double nugget, double sill, double range) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new VariogramModel(VariogramShape.Spherical, nugget, sill, range));
}
