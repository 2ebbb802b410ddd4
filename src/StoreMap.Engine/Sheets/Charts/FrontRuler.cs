using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>A fixture's front unrolled: distances from the left end, facing the case, on a true scale.</summary>
internal sealed class FrontRuler
{
    private readonly double left;
    private readonly double factor;

    /// <summary>Sets out a front.</summary>
    /// <param name="fixture">A fixture with a front.</param>
    /// <param name="center">Metres along the front that must be seen.</param>
    /// <param name="box">Room on the sheet.</param>
    /// <param name="units">The user's unit.</param>
    public FrontRuler(Fixture fixture, double center, SheetBox box, LengthUnit units)
    {
        Fixture = fixture;
        var length = fixture.Front!.Length;
        var scales = StandardScale.For(units).Where(s => s.Denominator is >= 20 and <= 50).ToList();
        Scale = scales.FirstOrDefault(s => length * 1000 / s.Denominator <= box.Width, scales[^1]);
        factor = 1000 / Scale.Denominator;
        // A case longer than the sheet is shown in part, the place looked for in the middle.
        var shown = Math.Min(length, box.Width / factor);
        From = Math.Clamp(fixture.FromLeft(center) - (shown / 2), 0, length - shown);
        To = From + shown;
        left = box.X + ((box.Width - (shown * factor)) / 2);
    }

    public Fixture Fixture { get; }

    public StandardScale Scale { get; }

    /// <summary>Distance from the left end at which the drawing begins, metres.</summary>
    public double From { get; }

    /// <summary>Distance from the left end at which it ends, metres.</summary>
    public double To { get; }

    /// <summary>True when the left end of the case is not shown.</summary>
    public bool CutLeft => From > 1e-6;

    /// <summary>True when the right end of the case is not shown.</summary>
    public bool CutRight => To < Fixture.Front!.Length - 1e-6;

    /// <summary>Sheet x of a place along the front, from its first point.</summary>
    public double X(double along) => XFromLeft(Fixture.FromLeft(along));

    /// <summary>Sheet x of a distance from the left end.</summary>
    public double XFromLeft(double metres) => left + ((metres - From) * factor);

    /// <summary>True when the place is shown.</summary>
    public bool Shows(double along) => Fixture.FromLeft(along) >= From - 1e-6 && Fixture.FromLeft(along) <= To + 1e-6;

    /// <summary>Sheet length of metres.</summary>
    public double Length(double metres) => metres * factor;

    /// <summary>The shown part of an interval along the front as sheet x from left to right; null when none of it is shown.</summary>
    public (double Left, double Right)? Span(double from, double to)
    {
        double a = Fixture.FromLeft(from), b = Fixture.FromLeft(to);
        double low = Math.Max(From, Math.Min(a, b)), high = Math.Min(To, Math.Max(a, b));
        return high > low ? (XFromLeft(low), XFromLeft(high)) : null;
    }
}
