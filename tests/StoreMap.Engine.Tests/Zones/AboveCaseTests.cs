using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Sources above a case against the normal-Laplace law (Reed 2006): the case's own trace, exponential with reach L, spread over
/// a normal stretch of deviation w, is exp(w²/2L²)/2 (exp(x/L) erfc((w/L + x/w)/√2) + exp(-x/L) erfc((w/L - x/w)/√2)) of the narrow peak.</summary>
public class AboveCaseTests
{
    // The stretch is cut at three deviations and its cells are 0.1 m wide.
    private const double Cut = 0.01;

    internal static double NormalLaplace(double x, double reach, double width)
    {
        var scale = Math.Exp(width * width / (2 * reach * reach)) / 2;
        return scale * (Side(x) + Side(-x));

        double Side(double at) => Math.Exp(at / reach) * 2 * NormalLaw.Phi(-((width / reach) + (at / width)));
    }

    [Theory]
    [InlineData(0.9, 1)]
    [InlineData(1.5, 1.8)]
    public void Widen_TraceOfALongLineUp_IsTheNormalLaplaceLaw(double reach, double width)
    {
        var axis = CaseAirTests.Axis(40);
        var response = new double[axis.Count];
        foreach (var x in new[] { 0, 0.7, 1.6, 3.1 })
        {
            Shown.Moving(axis, new AirSetting(reach, 0, 0, 1), 20.05 + x, response);
            new SinkingStretch(axis, width).Widen(response);
            Assert.Equal(NormalLaplace(x, reach, width), response[axis.CellAt(20.05)], Cut);
        }
    }

    [Fact]
    public void Widen_EvenAir_StaysEvenToTheEnds()
    {
        var axis = CaseAirTests.Axis(9, 3, 3, 3);
        var response = new double[axis.Count];
        Array.Fill(response, 0.4);
        new SinkingStretch(axis, 1.8).Widen(response);
        Assert.All(response, r => Assert.Equal(0.4, r, 1e-12));
    }

    /// <summary>With the fans stopped a leak's trace is narrow and a source's above is as wide as before (continuous plane source, Carslaw and
    /// Jaeger 1959: half-width 0.5 m after 3 minutes).</summary>
    [Fact]
    public void Locate_StillTraceAsWideAsSinkingGas_IsProbablyNotInTheCase()
    {
        var wide = Still(x => NormalLaplace(x, 0.5, 1.5) / NormalLaplace(0, 0.5, 1.5));
        var narrow = Still(x => Math.Exp(-Math.Abs(x) / 0.5));
        Assert.True(wide.Elsewhere.Sum(e => e.Probability) > 0.5);
        Assert.True(wide.Zones.Sum(z => z.Probability) < 0.5);
        Assert.True(narrow.Zones[0].Probability > 0.9);
        Assert.True(narrow.Elsewhere.Sum(e => e.Probability) < 0.1);

        static LocateResult Still(Func<double, double> trace)
        {
            var moving = Enumerable.Range(0, 8).Select(i => (Feet: 2.25 + (4.5 * i), Fans: true));
            var still = Enumerable.Range(0, 8).Select(i => (Feet: 9.0 + (2 * i), Fans: false));
            NetSurvey survey = Along([.. moving.Concat(still).Select(p => (p.Feet, 30 * (p.Fans ? NormalLaplace((p.Feet - 16) * Foot, 1.2, 1.5) : trace((p.Feet - 16) * Foot))))]);
            return Locating.Locate(Case(LengthUnit.Foot), survey with { Readings = [.. survey.Readings.Select((r, i) => i < 8 ? r : Stopped(r))] }, []);
        }

        static NetReading Stopped(NetReading r) => r with { Reading = r.Reading with { Air = AirState.FansOff, Detail = new AirDetail(null, null, null, 180) } };
    }

    /// <summary>Which of two line-ups is named first makes no difference, and far apart they share nothing.</summary>
    [Fact]
    public void Odds_OfOneSourceAboveTwoLineUps_AreAlikeBothWaysAndFallWithDistance()
    {
        var near = Pair(2);
        Assert.Equal(near.Forth, near.Back, 1e-9 * near.Forth);
        Assert.True(near.Forth > 10 * Pair(6).Forth);
        Assert.Equal(0, Pair(25).Forth, 1e-6);

        static (double Forth, double Back) Pair(double apart)
        {
            var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], Neighbour("C3", apart)], Outline = [new(-5, -40), new(20, -40), new(20, 5), new(-5, 5)] };
            var studies = LineUps.Of(plan).Select(a => Study(plan, a)).ToArray();
            double[][] places = [.. studies.Select(s => Bump(s, 5))];
            return (SharedAbove.Odds(studies[0], places[0], studies[1], places[1]), SharedAbove.Odds(studies[1], places[1], studies[0], places[0]));
        }

        static LineUpStudy Study(Plan plan, LineUpAxis axis)
        {
            var survey = Net([Reading(0, 5, new ReadingPlace { Fixture = axis.Fixtures[0].Id, Along = 5, At = axis.PointAt(5) })]);
            var settings = new LocateSettings();
            return new LineUpStudy(axis, BlockBuilder.Of(axis, survey), PlacePrior.Of(plan, axis, [], settings), PlacePrior.Above(plan, axis, settings), plan, null);
        }

        static double[] Bump(LineUpStudy study, double x)
        {
            var bump = study.Axis.Centres.Select(s => Math.Exp(-Math.Pow(study.Axis.PointAt(s).X - x, 2))).ToArray();
            return [.. bump.Select(b => b / bump.Sum())];
        }
    }
}
