using System.Globalization;

namespace StoreMap.Web.Desk;

/// <summary>Lengths as the plan page shows and takes them, to and from the layout's own numbers.</summary>
/// <param name="Layout">The layout's unit.</param>
/// <param name="Chosen">The unit that this device shows; null for the layout's.</param>
public sealed record TypedLengths(LengthUnit Layout, LengthUnit? Chosen)
{
    private const int Decimals = 6;

    /// <summary>The unit of what is typed without one.</summary>
    public LengthUnit Unit => Chosen ?? Layout;

    /// <summary>A length of the layout as it is shown: feet and inches where those are chosen, else a number.</summary>
    public string Text(double value)
    {
        var shown = Unit.FromMetres(value * Layout.InMetres());
        if (Chosen != LengthUnit.Foot) return PlanShapes.N(shown);
        var inches = Math.Round(Math.Abs(shown) * 12, 2);
        var feet = Math.Floor(inches / 12);
        var rest = Math.Round(inches - (12 * feet), 2);
        return string.Create(CultureInfo.InvariantCulture, $"{(shown < 0 && inches > 0 ? "-" : "")}{feet:0}'{(rest > 0 ? $" {rest.ToString("0.##", CultureInfo.InvariantCulture)}\"" : "")}");
    }

    /// <summary>What was typed, as the layout has it; null when it is no length.</summary>
    public double? Parse(string text) => LengthEntry.Parse(text, Unit) is { } typed ? Math.Round(Layout.FromMetres(typed * Unit.InMetres()), Decimals) : null;

    /// <summary>What was typed where a length was shown: one left as it was shown stays as it was.</summary>
    public double? Parse(string text, double was) => text == Text(was) ? was : Parse(text);

    /// <summary>A usual length, round in the unit shown, as the layout has it.</summary>
    /// <param name="feet">Where feet or inches are shown, feet.</param>
    /// <param name="metres">Else, metres.</param>
    public double Usual(double feet, double metres) => Layout.FromMetres(Unit.IsCustomary() ? feet * LengthUnits.MetresPerFoot : metres);
}
