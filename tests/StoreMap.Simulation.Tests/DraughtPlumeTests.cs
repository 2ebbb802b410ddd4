using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Tests;

/// <summary>The plume of an overhead source against what holds of it whatever its formula: straight downwind it is q/(4 pi D x) at every draught
/// (Csanady 1973, turbulent diffusion in the environment; from memory), and through a closed surface passes all that is released.</summary>
public class DraughtPlumeTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.02)]
    [InlineData(0.1)]
    public void At_StraightDownwind_DoesNotDependOnTheDraught(double speed) =>
        Assert.Equal(1 / (4 * Math.PI * 0.03 * 1.5), DraughtPlume.At(new PlanPoint(1.5, 0), 0, new PlanPoint(speed, 0), 0.03), 1e-12);

    [Theory]
    [InlineData(0)]
    [InlineData(0.03)]
    public void At_ThroughASphere_PassesWhatIsReleased(double speed)
    {
        const double d = 0.03, radius = 0.8, h = 1e-5;
        var draught = new PlanPoint(speed, 0);
        var flux = 0.0;
        const int polar = 400;
        const int round = 200;
        for (var i = 0; i < polar; i++)
        {
            var z = -1 + ((i + 0.5) * 2 / polar);
            for (var k = 0; k < round; k++)
            {
                var (sin, cos) = Math.SinCos((k + 0.5) * 2 * Math.PI / round);
                var (x, y) = (Math.Sqrt(1 - (z * z)) * cos, Math.Sqrt(1 - (z * z)) * sin);
                var slope = (At(radius + h) - At(radius - h)) / (2 * h);
                flux += ((speed * x * At(radius)) - (d * slope)) * 4 * Math.PI * radius * radius / (polar * round);

                double At(double r) => DraughtPlume.At(new PlanPoint(r * x, r * y), r * z, draught, d);
            }
        }

        Assert.Equal(1, flux, 1e-3);
    }
}
