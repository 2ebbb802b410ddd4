using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The north arrow of a plan whose north is known.</summary>
internal static class NorthArrow
{
    /// <summary>Side of the square the arrow needs.</summary>
    public const double Size = 15;

    /// <summary>The plan direction of north: the +y axis has the given compass bearing.</summary>
    /// <param name="degrees">Bearing of +y, degrees clockwise from north.</param>
    public static PlanPoint Direction(double degrees)
    {
        var radians = degrees * Math.PI / 180;
        return new PlanPoint(-Math.Sin(radians), Math.Cos(radians));
    }

    /// <summary>Draws the arrow in a square with its middle at a point.</summary>
    public static void Draw(SvgWriter svg, SheetPoint middle, PlanToSheet plan, double degrees, Words words)
    {
        var north = plan.Direction(Direction(degrees));
        var side = new SheetPoint(-north.Y, north.X);
        svg.Begin("north-arrow", "north-arrow", words["plan.north"]);
        var tip = middle + (north * 3);
        var tail = middle - (north * 4.2);
        svg.Polygon([tip, tail - (side * 1.9), tail + (north * 1.3)], new Paint(SheetStyle.Ink, SheetStyle.Ink, SheetStyle.Hair));
        svg.Polygon([tip, tail + (side * 1.9), tail + (north * 1.3)], new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Hair));
        var letter = middle + (north * 4.8);
        svg.Text(new(letter.X, letter.Y + (SheetStyle.TextSmall / 2)), words["plan.north-letter"], SheetStyle.SmallBold, TextAnchor.Middle);
        svg.End();
    }
}
