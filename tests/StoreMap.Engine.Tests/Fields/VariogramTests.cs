using StoreMap.Fields;
using StoreMap.Plans;
using static StoreMap.Tests.Fields.MeuseZinc;

namespace StoreMap.Tests.Fields;

public class VariogramTests
{
    [Fact]
    public void Of_MeuseZinc_EqualsGstatsBins()
    {
        var bins = VariogramBins.Of(LogZinc);
        var rows = Table("meuse_zinc_variogram");
        Assert.Equal(rows.Select(r => (int)r[1]), bins.Select(b => b.Pairs));
        foreach (var (row, bin) in rows.Zip(bins))
        {
            Close(row[2], bin.Distance, 1e-8);
            Close(row[3], bin.Gamma, 1e-8);
        }
    }

    [Theory]
    [InlineData(1, 57, 79.29244, 0.1234479)]
    [InlineData(10, 543, 1011.29177, 0.6915705)]
    public void Of_MeuseZinc_HasTheLagsOfGstatsOwnTest(int lag, int pairs, double distance, double gamma)
    {
        var bin = VariogramBins.Of(LogZinc)[lag - 1];
        Assert.Equal(pairs, bin.Pairs);
        Assert.Equal(distance, bin.Distance, 1e-5);
        Assert.Equal(gamma, bin.Gamma, 1e-7);
    }

    // Parameters to 1 % (they depend on the optimiser); the sum of squares may not be worse than the library's.
    [Theory]
    [InlineData(VariogramShape.Spherical, 0.0506624268192, 0.59060780221, 897.020909797, 9.01119439893e-06)]
    [InlineData(VariogramShape.Exponential, 0, 0.71865258039, 449.758002536, 1.62832753721e-05)]
    public void To_MeuseZinc_FitsAsGstat(VariogramShape shape, double nugget, double sill, double range, double squares)
    {
        var fit = VariogramFit.To(VariogramBins.Of(LogZinc), shape);
        Assert.Equal(nugget, fit.Model.Nugget, (0.01 * nugget) + 1e-12);
        Close(sill, fit.Model.PartialSill, 0.01);
        Close(range, fit.Model.Range, 0.01);
        Assert.True(fit.SquaredError <= squares * (1 + 1e-6), $"{fit.SquaredError:R}");
        Assert.False(fit.AtLimit);
    }

    [Theory]
    [InlineData(VariogramShape.Spherical)]
    [InlineData(VariogramShape.Exponential)]
    [InlineData(VariogramShape.Gaussian)]
    public void To_BinsOfAModel_GivesTheModelBack(VariogramShape shape)
    {
        var model = new VariogramModel(shape, 0.3, 1.7, 6);
        var bins = Enumerable.Range(1, 15).Select(k => new VariogramBin(40 + k, k, model.Gamma(k))).ToArray();
        var fit = VariogramFit.To(bins, shape);
        Close(0.3, fit.Model.Nugget, 1e-5);
        Close(1.7, fit.Model.PartialSill, 1e-5);
        Close(6, fit.Model.Range, 1e-5);
    }

    [Fact]
    public void To_RiseWithoutASill_SaysThatTheRangeRanIntoItsLimit() =>
        Assert.True(VariogramFit.To([.. Enumerable.Range(1, 12).Select(k => new VariogramBin(50, k, 0.1 * k))], VariogramShape.Spherical).AtLimit);

    [Fact]
    public void To_FlatBins_GivesPureNugget() =>
        Assert.Equal(0.5, VariogramFit.To([.. Enumerable.Range(1, 10).Select(k => new VariogramBin(50, k, 0.5))], VariogramShape.Spherical).Model.Sill, 9);

    [Theory]
    [InlineData(VariogramShape.Spherical, 0.6875)] // 1.5/2 - 0.5/8
    [InlineData(VariogramShape.Exponential, 0.393469340287367)] // 1 - e^-0.5
    [InlineData(VariogramShape.Gaussian, 0.221199216928595)] // 1 - e^-0.25
    public void Gamma_AtHalfTheRange_FollowsItsFormula(VariogramShape shape, double rise)
    {
        var model = new VariogramModel(shape, 1, 2, 10);
        Assert.Equal(1 + (2 * rise), model.Gamma(5), 12);
        Assert.Equal(0, model.Gamma(0));
        Assert.Equal(3, model.Covariance(0));
    }

    [Fact]
    public void Of_AllPointsAtOnePlace_IsRefused() =>
        Assert.Throws<ArgumentException>(() => VariogramBins.Of([new(new PlanPoint(1, 1), 1), new(new PlanPoint(1, 1), 2)]));
}
