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

    /// <summary>Sections of a case as they are shown.</summary>
    public string Text(IEnumerable<double> sections) => string.Join('-', sections.Select(Text));

    /// <summary>What was typed as sections; null when they are none. A length that stands as it was shown is the one it was.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="was">The lengths that were shown, as the layout has them.</param>
    public IReadOnlyList<double>? Sections(string text, params IReadOnlyList<double> was)
    {
        if (LengthEntry.Sections(text) is not { } parts) return null;
        var lengths = parts.Select(p => was.Where(w => Text(w) == p).Select(w => (double?)w).FirstOrDefault() ?? Parse(p)).ToList();
        return lengths.TrueForAll(l => l > 0) ? [.. lengths.Select(l => l!.Value)] : null;
    }

    /// <summary>What sections may look like, for whom it could not be read.</summary>
    public string SectionsHint => $"Sections are lengths above 0 with a dash between two of them, such as {(Unit.IsCustomary() ? "12-12-8 or 12' 6\"-8'" : "2.5-2.5-1.9")}.";

    /// <summary>A usual length, round in the unit shown, as the layout has it.</summary>
    /// <param name="feet">Where feet or inches are shown, feet.</param>
    /// <param name="metres">Else, metres.</param>
    public double Usual(double feet, double metres) => Layout.FromMetres(Unit.IsCustomary() ? feet * LengthUnits.MetresPerFoot : metres);
}
