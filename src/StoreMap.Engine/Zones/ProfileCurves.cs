using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>The fitted curves of one leak along one fixture's front, from a sample of what its posterior holds for likely.</summary>
/// <param name="study">The line-up.</param>
/// <param name="leak">The leak's posterior.</param>
/// <param name="kind">0 for a leak at the coil, 1 for one in the base.</param>
/// <param name="partner">The other leak of the line-up; null without one.</param>
/// <param name="fixture">Index of the fixture in the line-up.</param>
/// <param name="edges">Edges of its cells along the front, metres, ascending.</param>
/// <param name="mass">Probability of the leak's place in each cell.</param>
internal sealed class ProfileCurves(LineUpStudy study, OneLeak leak, int kind, PartnerLeak? partner, int fixture, double[] edges, double[] mass)
{
    private const int Steps = 60;
    private const int Sample = 64;

    /// <summary>Log-deviation by which single readings scatter round the curve. Judgement: a little over that of turbulence and patch at the
    /// second noise level (0.28); on the demo's leaks it holds what the band says.</summary>
    private const double Scatter = 0.3;

    /// <summary>One curve for each kind of air that was read at the fixture; without a reading the air of the case with fans on.</summary>
    public FrontProfile[] All()
    {
        var rows = new SortedSet<(AirState Air, bool Base, int Block)>();
        foreach (var (b, block) in study.Blocks.Index())
        {
            foreach (var r in block.Readings.Select(r => r.Source.Reading).Where(r => r.Place.Fixture == study.Axis.Fixtures[fixture].Id && r.Spot != Spot.Ceiling)) rows.Add((r.Air, r.Spot == Spot.KickPlate, b));
        }

        if (!rows.Any(r => r is { Air: AirState.FansOn, Base: false })) rows.Add((AirState.FansOn, false, Math.Max(0, study.Blocks.ToList().FindIndex(b => b.FansOn))));
        return [.. rows.DistinctBy(r => (r.Air, r.Base)).Select(r => new FrontProfile(r.Air, r.Base, Of(r.Block, r.Base))).Where(p => p.Points.Count > 0)];
    }

    private ProfilePoint[] Of(int block, bool atBase)
    {
        var curves = leak.Points(kind, block, Sample);
        if (curves.Count == 0) return [];
        var length = edges[^1];
        var alongs = Enumerable.Range(0, Steps + 1).Select(i => length * i / Steps).ToArray();
        var columns = Columns(block, curves, SpotView.Of(atBase ? Spot.KickPlate : Spot.Return, low: false, onBack: false), alongs);
        var spread = Math.Exp(1.645 * Scatter);
        return [.. alongs.Zip(columns, (along, column) => new ProfilePoint(
            along, column[column.Length / 2], column[(int)(0.05 * column.Length)] / spread, column[(int)(0.95 * column.Length)] * spread, Density(along)))];
    }

    // What each curve of the sample shows at each place, ascending.
    private double[][] Columns(int block, IReadOnlyList<FitPoint> curves, SpotView view, double[] alongs)
    {
        var air = new BlockAir(study.Axis, [.. alongs.Select(along => (study.Axis.ToAxis(fixture, along), study.Blocks[block].FansOn ? (double?)null : StillAir.UnitSeconds))]);
        var columns = alongs.Select(_ => new double[curves.Count]).ToArray();
        var response = new double[study.Axis.Count];
        foreach (var alike in Enumerable.Range(0, curves.Count).GroupBy(k => study.Fits[kind][block].Settings[curves[k].Setting]))
        {
            for (var i = 0; i < columns.Length; i++)
            {
                air.Response(alike.Key, i, response);
                foreach (var k in alike) columns[i][k] = view.Of((SourceKind)kind, alike.Key.Cross) * response[curves[k].Cell] * Math.Exp(curves[k].LogStrength);
            }
        }

        for (var i = 0; i < columns.Length; i++)
        {
            if (partner is not null)
            {
                var p = partner.Points[block];
                air.Response(study.Fits[0][block].Settings[p.Setting], i, response);
                var other = view.Case * response[p.Cell] * Math.Exp(p.LogStrength);
                for (var k = 0; k < curves.Count; k++) columns[i][k] += other;
            }

            Array.Sort(columns[i]);
        }

        return columns;
    }

    private double Density(double along)
    {
        var cell = along >= edges[^1] ? mass.Length - 1 : Math.Clamp(Array.FindIndex(edges, e => e > along) - 1, 0, mass.Length - 1);
        return mass[cell] / (edges[cell + 1] - edges[cell]);
    }
}
