using StoreMap.Air;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Air;

/// <summary>Against plain dense elimination (Oracles/DenseOracle).</summary>
public class SparseCholeskyTests
{
    private const double Tolerance = 1e-10; // relative; matrices are well conditioned

    [Theory]
    [InlineData(1, 0.5, 1)]
    [InlineData(7, 0.4, 2)]
    [InlineData(40, 0.05, 3)]
    [InlineData(90, 0.1, 4)]
    [InlineData(130, 0.02, 5)]
    [InlineData(75, 1.0, 6)]
    public void Factor_RandomMatrix_SolvesLikeDenseElimination(int n, double density, int seed)
    {
        var matrix = Matrices.Random(n, density, seed);
        var (inverse, logDeterminant) = DenseOracle.Invert(Matrices.Dense(matrix));
        var factor = SparseCholesky.Factor(matrix, Supernodes.Of(matrix, Matrices.Shuffle(n, seed)));
        var b = Enumerable.Range(0, n).Select(i => Math.Sin(i + 1)).ToArray();
        AssertClose(DenseOracle.Times(inverse, b), factor.Solve(b));
        Assert.Equal(logDeterminant, factor.LogDeterminant, Tolerance * Math.Max(1, Math.Abs(logDeterminant)));
        AssertClose([.. Enumerable.Range(0, n).Select(i => inverse[i, i])], SelectedInverse.Diagonal(factor));
    }

    [Theory]
    [InlineData(30, 0.1, 4, 11)]
    [InlineData(80, 0.03, 25, 12)]
    [InlineData(60, 0.0, 9, 13)]
    public void Complete_TrailingBlock_IsTheSchurComplementAndMayBeRepeated(int n, double density, int trailing, int seed)
    {
        var matrix = Matrices.Random(n, density, seed);
        var order = Matrices.Shuffle(n, seed);
        var factor = SparseCholesky.Factor(matrix, Supernodes.Of(matrix, order, trailing));
        var last = order[^trailing..];
        var (inverse, _) = DenseOracle.Invert(Matrices.Dense(matrix));
        var block = new double[trailing, trailing];
        for (var i = 0; i < trailing; i++)
        {
            for (var j = 0; j < trailing; j++) block[i, j] = inverse[last[i], last[j]];
        }

        var (schur, _) = DenseOracle.Invert(block);
        for (var j = 0; j < trailing; j++)
        {
            for (var i = j; i < trailing; i++) Assert.Equal(schur[i, j], factor.Schur[(j * trailing) + i], Tolerance * 10);
        }

        foreach (var scale in new[] { 0.0, 3.0, 0.5 })
        {
            var added = Enumerable.Range(0, trailing).Select(i => scale * (1 + (i % 3))).ToArray();
            var dense = Matrices.Dense(matrix);
            for (var i = 0; i < trailing; i++) dense[last[i], last[i]] += added[i];
            var (expected, logDeterminant) = DenseOracle.Invert(dense);
            factor.Complete(added);
            var b = Enumerable.Range(0, n).Select(i => Math.Cos(i)).ToArray();
            AssertClose(DenseOracle.Times(expected, b), factor.Solve(b));
            AssertClose([.. Enumerable.Range(0, n).Select(i => expected[i, i])], SelectedInverse.Diagonal(factor));
            Assert.Equal(logDeterminant, factor.LogDeterminant, 1e-9);
        }
    }

    [Fact]
    public void Factor_NegativePivot_Throws()
    {
        var matrix = Matrices.FromLower(new double[,] { { 1, 0 }, { 2, 1 } });
        Assert.Throws<ArithmeticException>(() => SparseCholesky.Factor(matrix, Supernodes.Of(matrix, [0, 1])));
    }

    [Fact]
    public void Factor_Twice_SameBits()
    {
        var matrix = Matrices.Random(150, 0.05, 21);
        var nodes = Supernodes.Of(matrix, Matrices.Shuffle(150, 5));
        var (a, b) = (SparseCholesky.Factor(matrix, nodes), SparseCholesky.Factor(matrix, nodes));
        Assert.Equal(SelectedInverse.Diagonal(a), SelectedInverse.Diagonal(b));
    }

    private static void AssertClose(double[] expected, double[] actual)
    {
        var scale = expected.Max(Math.Abs);
        for (var i = 0; i < expected.Length; i++) Assert.Equal(expected[i], actual[i], Tolerance * scale);
    }
}
