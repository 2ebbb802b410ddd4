using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>Says which barriers stand between which air.</summary>
internal sealed class FaceRule(Plan plan, RegionRaster raster, AirSettings settings)
{
    /// <summary>Openness of a face that no barrier cuts.</summary>
    public double WithoutBarrier(int a, int b)
    {
        if (raster.Of[a] == RegionRaster.Solid || raster.Of[b] == RegionRaster.Solid) return 0;
        var (p, q) = (CaseOf(a), CaseOf(b));
        if (p == q) return 1;
        if (p >= 0 && q >= 0) return BetweenCases(p, q);
        return raster.EndPanel[a] || raster.EndPanel[b] ? 0 : 1;
    }

    /// <summary>Openness that a barrier leaves to a face it cuts; the face's own is the least over all of them.</summary>
    /// <param name="barrier">The barrier.</param>
    /// <param name="share">Openness by its gaps over the face's width.</param>
    /// <param name="a">A cell beside the face.</param>
    /// <param name="b">The cell on the other side.</param>
    public double Across(Barrier barrier, double share, int a, int b)
    {
        var (p, q) = (CaseOf(a), CaseOf(b));
        switch (barrier.Kind)
        {
            case BarrierKind.Section:
                return p == barrier.Owner && q == barrier.Owner ? share : 1;
            case BarrierKind.Obstacle:
                return p >= 0 && p == q ? 1 : 0;
            case BarrierKind.Room or BarrierKind.WalkIn:
                // A room's wall drawn through a case or a walk-in does not part the air inside it.
                var inside = (p >= 0 && q >= 0) || (raster.Of[a] == raster.Of[b] && raster.Regions[raster.Of[a]].Kind == AirRegionKind.WalkIn);
                return inside ? 1 : share;
            default:
                if (p == q && p >= 0) return 1;
                if (p >= 0 && q >= 0) return BetweenCases(p, q);
                return p == barrier.Owner || q == barrier.Owner ? share : 0;
        }
    }

    private double BetweenCases(int p, int q) => AirGrid.SameLineUp(plan.Fixtures[p], plan.Fixtures[q]) ? settings.EndOpenness : 0;

    private int CaseOf(int cell)
    {
        var region = raster.Of[cell];
        return region != RegionRaster.Solid && raster.Regions[region].Kind == AirRegionKind.Case ? raster.Regions[region].Index : -1;
    }
}
