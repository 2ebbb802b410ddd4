using StoreMap.Simulation;
using StoreMap.Simulation.Stores;

namespace StoreMap.Tests;

/// <summary>The air along a line against closed forms of the one-dimensional dispersion equation with loss.</summary>
public class ChannelTests
{
    [Fact]
    public void Step_SteadySourceInStillLine_FallsToOneOverEAtRootOfDispersionOverLoss()
    {
        // D c'' - k c + G'/A delta = 0: peak G'/A / (2 sqrt(D k)), reach sqrt(D/k). D 0.02, k 0.01: 35.3553 and 1.41421 m.
        var line = Steady(speed: 0);
        Assert.Equal(35.3553, line.At(15), 35.3553 * 0.02);
        Assert.Equal(Math.Exp(-1), line.At(15 + 1.41421) / line.At(15), 0.01);
        Assert.Equal(line.At(15 - 2), line.At(15 + 2), 1e-6);
    }

    [Fact]
    public void Step_SteadySourceInADraught_HasItsTwoReaches()
    {
        // u 0.02 m/s: reach 0.73205 m against the draught, 2.73205 m with it, peak 28.8675 (the same equation with u c').
        var line = Steady(speed: 0.02);
        Assert.Equal(28.8675, line.At(15), 28.8675 * 0.02);
        Assert.Equal(2.73205, 1 / Math.Log(line.At(17) / line.At(18)), 0.08);
        Assert.Equal(0.73205, 1 / Math.Log(line.At(13) / line.At(12)), 0.05);
    }

    [Fact]
    public void Step_SourceNearAClosedEnd_AddsItsMirrorImage()
    {
        // Method of images: c(0) of a source at a from a closed end is twice that of the endless line.
        var line = Still(600, 0.05);
        for (var t = 0; t < 3000; t++)
        {
            line.Source[20] += 1 / 0.05;
            line.Step(1);
        }

        var at = 20.5 * 0.05;
        Assert.Equal(2 * 35.3553 * Math.Exp(-at / 1.41421), line.At(0.025), 35.3553 * 0.04);
    }

    [Theory]
    [InlineData(60, 0.297)]
    [InlineData(180, 0.514)]
    [InlineData(600, 0.938)]
    public void Step_SourceIntoStillAir_WidensAsAPlaneSource(int seconds, double halfWidth)
    {
        // c(x,t) = G'/A (sqrt(t/(pi D)) exp(-x2/4Dt) - |x|/(2D) erfc(|x|/sqrt(4Dt))), D 0.003: half-widths at half of the peak (Carslaw and Jaeger).
        var line = new Channel(1000, 0.01);
        Array.Fill(line.Dispersion, 0.003);
        for (var t = 0; t < seconds * 2; t++)
        {
            line.Source[500] += 1 / 0.01;
            line.Step(0.5);
        }

        Assert.Equal(Math.Sqrt(seconds / (Math.PI * 0.003)), line.At(5.005), Math.Sqrt(seconds / (Math.PI * 0.003)) * 0.02);
        var half = 0.0;
        while (line.At(5.005 + half) > line.At(5.005) / 2) half += 0.002;
        Assert.Equal(halfWidth, half, 0.01);
    }

    [Fact]
    public void Step_AnyDraught_LosesNoGasButToTheOutside()
    {
        var noise = new SeededNoise(5);
        var line = new Channel(80, 0.15);
        var (released, lost) = (0.0, 0.0);
        for (var t = 0; t < 400; t++)
        {
            for (var i = 1; i < 80; i++)
            {
                line.Dispersion[i] = noise.Between(0.001, 0.05);
                line.Speed[i] = noise.Between(-0.03, 0.03);
            }

            for (var i = 0; i < 80; i++) line.Exchange[i] = noise.Between(0, 0.05);
            line.Source[noise.Below(80)] += 3;
            released += 3;
            line.Step(1);
            lost += line.Lost.Sum();
        }

        Assert.Equal(released, lost + line.Ppm.Sum(), 1e-8 * released);
        Assert.All(line.Ppm, p => Assert.True(p >= 0));
    }

    private static Channel Still(int cells, double cellMetres)
    {
        var line = new Channel(cells, cellMetres);
        Array.Fill(line.Dispersion, 0.02);
        Array.Fill(line.Exchange, 0.01);
        return line;
    }

    private static Channel Steady(double speed)
    {
        var line = Still(1500, 0.02);
        Array.Fill(line.Speed, speed);
        for (var t = 0; t < 3000; t++)
        {
            // G'/A of 1 at 15 m, half in the cell to either side.
            line.Source[749] += 0.5 / 0.02;
            line.Source[750] += 0.5 / 0.02;
            line.Step(1);
        }

        return line;
    }
}
