using StoreMap.Fields;
using static StoreMap.Tests.Fields.MeuseZinc;

namespace StoreMap.Tests.Fields;

public class CrossValidationTests
{
    [Fact]
    public void OfKriging_MeuseZinc_EqualsGstat()
    {
        var scores = CrossValidation.OfKriging(LogZinc, Model);
        foreach (var (row, estimate) in Table("meuse_zinc_loo").Zip(scores.Estimates))
        {
            Close(row[2], estimate.Value, 1e-8);
            Close(row[3], estimate.Variance, 1e-8);
        }

        Assert.Equal(0.391749, scores.RootMeanSquare, 5e-7);
        Assert.Equal(0.00018, scores.MeanZ, 5e-6);
        Assert.Equal(0.91000, scores.DeviationZ, 5e-6);
    }

    [Fact]
    public void OfKriging_AllAtOnce_EqualsLeavingOutOneByOne()
    {
        var samples = LogZinc[..40];
        var quick = CrossValidation.OfKriging(samples, Model);
        var plain = CrossValidation.LeaveOneOut(samples, (others, left) => new OrdinaryKriging(others, Model).Estimate(left.At));
        foreach (var (a, b) in quick.Estimates.Zip(plain.Estimates))
        {
            Close(b.Value, a.Value, 1e-9);
            Close(b.Variance, a.Variance, 1e-9);
        }
    }

    [Fact]
    public void OfKriging_NearestSixteen_ScoresCloseToAll() =>
        Assert.Equal(CrossValidation.OfKriging(LogZinc, Model).RootMeanSquare, CrossValidation.OfKriging(LogZinc, Model, 16).RootMeanSquare, 0.02);

    [Fact]
    public void OfInverseDistance_TwoPoints_PredictEachOther()
    {
        var scores = CrossValidation.OfInverseDistance([new(new(0, 0), 1), new(new(1, 0), 4)]);
        Assert.Equal([4.0, 1.0], scores.Estimates.Select(e => e.Value));
        Assert.Equal(3, scores.RootMeanSquare, 12);
        Assert.Equal(0, scores.MeanError, 12);
        Assert.True(double.IsNaN(scores.MeanZ));
    }

    [Fact]
    public void OfInverseDistance_MeuseZinc_IsWorseThanKriging() =>
        Assert.True(CrossValidation.OfInverseDistance(LogZinc).RootMeanSquare > CrossValidation.OfKriging(LogZinc, Model).RootMeanSquare);
}
