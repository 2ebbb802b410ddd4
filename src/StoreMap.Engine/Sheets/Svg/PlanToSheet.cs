using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The one place where plan metres (y up) become sheet millimetres (y down): turned by quarter turns, scaled, moved.</summary>
internal sealed class PlanToSheet
{
    private readonly double factor;
    private readonly SheetPoint offset;

    /// <summary>Makes a converter that puts the middle of a plan rectangle on the middle of a sheet box.</summary>
    /// <param name="scale">Scale denominator n of 1:n.</param>
    /// <param name="quarterTurns">Quarter turns anticlockwise of the plan, 0 to 3.</param>
    /// <param name="planMiddle">Plan point, metres, that comes to lie on <paramref name="sheetMiddle"/>.</param>
    /// <param name="sheetMiddle">Sheet point, millimetres.</param>
    public PlanToSheet(double scale, int quarterTurns, PlanPoint planMiddle, SheetPoint sheetMiddle)
    {
        Scale = scale;
        QuarterTurns = quarterTurns;
        factor = 1000 / scale;
        var turned = Turn(planMiddle);
        offset = new SheetPoint(sheetMiddle.X - (turned.X * factor), sheetMiddle.Y + (turned.Y * factor));
    }

    private PlanToSheet(PlanToSheet other, SheetPoint by)
    {
        Scale = other.Scale;
        QuarterTurns = other.QuarterTurns;
        factor = other.factor;
        offset = other.offset + by;
    }

    /// <summary>The same drawing moved on the sheet.</summary>
    public PlanToSheet Moved(SheetPoint by) => new(this, by);

    /// <summary>Scale denominator n of 1:n.</summary>
    public double Scale { get; }

    /// <summary>Quarter turns anticlockwise of the plan, 0 to 3.</summary>
    public int QuarterTurns { get; }

    /// <summary>The sheet point of a plan point.</summary>
    public SheetPoint Point(PlanPoint p)
    {
        var turned = Turn(p);
        return new SheetPoint(offset.X + (turned.X * factor), offset.Y - (turned.Y * factor));
    }

    /// <summary>The sheet direction of a plan direction, of the same length.</summary>
    public SheetPoint Direction(PlanPoint d)
    {
        var turned = Turn(d);
        return new SheetPoint(turned.X, -turned.Y);
    }

    /// <summary>The sheet length of a plan length: millimetres of metres.</summary>
    public double Length(double metres) => metres * factor;

    /// <summary>The plan point of a sheet point.</summary>
    public PlanPoint Plan(SheetPoint p)
    {
        double x = (p.X - offset.X) / factor, y = (offset.Y - p.Y) / factor;
        return QuarterTurns switch { 1 => new(y, -x), 2 => new(-x, -y), 3 => new(-y, x), _ => new(x, y) };
    }

    private PlanPoint Turn(PlanPoint p) => QuarterTurns switch
    {
        1 => new(-p.Y, p.X),
        2 => new(-p.X, -p.Y),
        3 => new(p.Y, -p.X),
        _ => p,
    };
}
