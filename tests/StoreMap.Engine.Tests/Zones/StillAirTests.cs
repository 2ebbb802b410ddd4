using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>Still air against the closed solution of a continuous plane source with dispersion D and first-order loss k,
/// c = 1/(4 sqrt(Dk)) [exp(-x/L) erfc(x/sqrt(4Dt) - sqrt(kt)) - exp(x/L) erfc(x/sqrt(4Dt) + sqrt(kt))] (Carslaw and Jaeger, Conduction of
/// Heat in Solids, 2nd ed., 1959), and its half-widths without loss at D 0.003: 0.297, 0.514, 0.938 m at 60, 180, 600 s.</summary>
public class StillAirTests
{
    // Implicit steps that grow by a quarter and 0.1 m cells.
    private const double StepShare = 0.04;

    [Theory]
    [InlineData(0.0025, 150, 0)]
    [InlineData(0.0025, 150, 0.6)]
    [InlineData(0.005, 90, 0.3)]
    [InlineData(0.01, 400, 1.2)]
    public void Response_EndlessCalmAir_IsTheClosedSolution(double d, double seconds, double x)
    {
        var axis = CaseAirTests.Axis(30);
        var response = new double[axis.Count];
        Shown.Still(axis, new AirSetting(1.3, 0, 0, 1) { StillDispersion = d }, 15.05 + x, seconds, response);
        var wanted = Closed(d, x, seconds) / Closed(d, 0, StillAir.UnitSeconds);
        // A cell is 0.1 m wide: at the source itself the cell's mean stands for the peak.
        if (x == 0) wanted = Enumerable.Range(0, 100).Average(i => Closed(d, 0.0005 * (i + 0.5), seconds)) / Closed(d, 0, StillAir.UnitSeconds);
        Assert.InRange(response[axis.CellAt(15.05)] / wanted, 1 - StepShare, 1 + StepShare);
    }

    [Theory]
    [InlineData(60, 0.297)]
    [InlineData(180, 0.514)]
    [InlineData(600, 0.938)]
    public void Response_HalfWidth_IsTheTable(double seconds, double halfWidth)
    {
        var axis = CaseAirTests.Axis(30);
        var setting = new AirSetting(1.3, 0, 0, 1) { StillDispersion = 0.003 };
        var peak = At(15.05);
        var (low, high) = (0.0, 3.0);
        for (var i = 0; i < 30; i++)
        {
            var middle = (low + high) / 2;
            if (At(15.05 + middle) > peak / 2) low = middle;
            else high = middle;
        }

        // A cell's mean and the implicit steps widen the early trace.
        Assert.InRange(low / halfWidth, 0.95, 1.1);

        double At(double s)
        {
            var response = new double[axis.Count];
            Shown.Still(axis, setting, s, seconds, response, loss: 1e-6);
            return response[axis.CellAt(15.05)];
        }
    }

    private static double Closed(double d, double x, double t)
    {
        const double k = StillAir.Loss;
        var (near, root) = (x / Math.Sqrt(4 * d * t), Math.Sqrt(k * t));
        var reach = Math.Sqrt(d / k);
        return ((Math.Exp(-x / reach) * (1 - NormalLaw.ErrorFunction(near - root))) - (Math.Exp(x / reach) * (1 - NormalLaw.ErrorFunction(near + root))))
            / (4 * Math.Sqrt(d * k));
    }
}
