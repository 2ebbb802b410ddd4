namespace StoreMap.Plans;

/// <summary>Reads a fixture: what all kinds share here, the rest by kind. What lacks its geometry is reported and left out.</summary>
internal static class FixtureReader
{
    private static readonly string[] CaseFields = ["front", "back", "sections", "panels", "doors", "doorsRetrofit", "valveEnd", "drains"];
    private static readonly string[] WalkInFields = ["opening"];
    private static readonly string[] OwnChargeFields = ["refrigerant", "charge", "chargeUnit"];

    // A plug-in unit holds a few hundred grams of propane, an old one a few kilograms.
    private const double MostOwnCharge = 25;

    private const int EarliestYear = 1900;
    private const int LatestYear = 2200;

    /// <summary>Reads a fixture.</summary>
    public static Fixture? Read(FieldReader reader, LayoutElements elements)
    {
        var kind = reader.RequiredWord<FixtureKind>("kind");
        var outline = reader.Ring("outline");
        var shared = new Fixture
        {
            Id = reader.Element!, Tag = reader.Text("tag") ?? reader.Element!, Name = reader.Text("name"), LineUp = reader.Text("lineUp"),
            Product = reader.Text("product"), Installed = reader.Whole("installed", EarliestYear, LatestYear), Kind = kind ?? FixtureKind.OpenCase, Outline = outline ?? [],
        };
        if (kind is null) return null;
        NotForKind(reader, kind.Value);
        if (kind != FixtureKind.SelfContained && reader["circuit"] is null && elements[LayoutLists.Circuits].Count > 0)
        {
            reader.Warn("circuit", null, "no-circuit", "The fixture names no circuit, so its refrigerant is unknown.");
        }

        if (kind == FixtureKind.SelfContained) shared = WithOwnCharge(reader, shared);
        var whole = kind == FixtureKind.WalkIn ? WalkInReader.Read(reader, elements, shared) : CaseReader.Read(reader, elements, shared);
        return outline is null ? null : whole;
    }

    /// <summary>Fields that say nothing for a kind.</summary>
    public static IReadOnlyList<string> StrangeFields(FixtureKind kind)
    {
        IEnumerable<string> strange = kind == FixtureKind.WalkIn ? CaseFields : WalkInFields;
        if (kind is not FixtureKind.WalkIn and not FixtureKind.IslandCase) strange = strange.Append("back");
        if (kind != FixtureKind.SelfContained) strange = strange.Concat(OwnChargeFields);
        return [.. strange];
    }

    private static void NotForKind(FieldReader reader, FixtureKind kind)
    {
        foreach (var field in StrangeFields(kind))
        {
            if (reader[field] is { } node) reader.Warn(field, node, "not-for-kind", $"The field {field} says nothing for kind {kind.Kebab()}; it is kept in the file and not used.");
        }
    }

    private static Fixture WithOwnCharge(FieldReader reader, Fixture fixture)
    {
        if (reader["charge"] is null) reader.Warn("charge", null, "no-charge", "The unit's own charge is not given.");
        var charge = RefrigerationReader.Charge(reader);
        if (charge > MostOwnCharge) reader.Warn("charge", reader["charge"], "charge-plausible", $"A self-contained unit with {Say.Number(charge.Value)} kg is unusual; check the charge and its unit.");
        return fixture with { Refrigerant = RefrigerationReader.Refrigerant(reader, "The unit's"), ChargeKilograms = charge };
    }
}
