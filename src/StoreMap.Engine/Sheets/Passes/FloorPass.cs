using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The floor inside the outer walls.</summary>
internal static class FloorPass
{
    public static void Draw(PlanDrawing d)
    {
        d.Svg.Begin("floor", "floor");
        d.Svg.Polygon(d.Points(d.Plan.Outline), Paint.Solid(SheetStyle.Floor));
        d.Svg.End();
    }
}
