using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads a case's sections, their coils and their circuits.</summary>
internal static class SectionReader
{
    private const int MostSections = 200;
    private const int MostCoils = 10;

    /// <summary>Reads the sections along a front; without any, the whole front is one.</summary>
    /// <returns>Sections that cover the front, and their stated lengths.</returns>
    public static (IReadOnlyList<Section> Sections, IReadOnlyList<double> Nominal) Read(FieldReader reader, LayoutElements elements, PlanLine front)
    {
        var stated = Lengths(reader, "sections", LayoutLimits.SectionLeast, LayoutLimits.SectionMost);
        IReadOnlyList<double> nominal = stated is { Count: > 0 } && CheckSum(reader, stated, front.Length) ? stated : [front.Length];
        var cuts = LengthFit.Cuts(nominal, front.Length);
        var circuits = Circuits(reader, elements, nominal.Count);
        var coils = Coils(reader, front, cuts);
        var sections = Enumerable.Range(0, nominal.Count).Select(i => new Section(i + 1, cuts[i], cuts[i + 1], coils[i], circuits[i]));
        return ([.. sections], nominal);
    }

    /// <summary>A list of lengths, metres; null when absent or when any is wrong.</summary>
    public static IReadOnlyList<double>? Lengths(FieldReader reader, string field, double least, double most)
    {
        var nodes = reader.List(field, MostSections);
        List<double> lengths = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (nodes[i] is null) reader.WrongType($"{field}[{i}]", null, "a number");
            else if (reader.LengthOf($"{field}[{i}]", nodes[i], least, most) is { } length) lengths.Add(length);
        }

        return nodes.Count > 0 && lengths.Count == nodes.Count ? lengths : null;
    }

    /// <summary>Checks the circuits of a case whose sections can't be told.</summary>
    public static void CheckCircuits(this LayoutElements elements, FieldReader reader)
    {
        if (reader["circuit"] is JsonArray) elements.References(reader, "circuit", LayoutLists.Circuits);
        else elements.Reference(reader, "circuit", LayoutLists.Circuits);
    }

    private static bool CheckSum(FieldReader reader, IReadOnlyList<double> lengths, double front)
    {
        var sum = lengths.Sum();
        var told = $"The sections add up to {Say.Length(sum, reader.Unit)}, the front is {Say.Length(front, reader.Unit)} long";
        if (!LengthFit.Fits(lengths, front))
        {
            reader.Error("sections", reader["sections"], "sections-sum", $"{told}; they may differ by end panels of up to {Say.Length(LayoutLimits.Slack, reader.Unit)} in all. Correct the sections or the front.");
            return false;
        }

        if (Math.Abs(sum - front) > LayoutLimits.Rounding) reader.Warn("sections", reader["sections"], "sections-sum", $"{told}; the difference is taken as end panels and split between both ends.");
        return true;
    }

    private static string?[] Circuits(FieldReader reader, LayoutElements elements, int count)
    {
        var circuits = new string?[count];
        if (reader["circuit"] is not JsonArray array)
        {
            Array.Fill(circuits, elements.Reference(reader, "circuit", LayoutLists.Circuits));
            return circuits;
        }

        if (array.Count != count) reader.Error("circuit", array, "circuit-count", $"There are {array.Count} circuits for {count} sections; give one for all, or one per section.");
        for (var i = 0; i < Math.Min(array.Count, MostSections); i++)
        {
            var circuit = array[i] is null ? null : elements.ReferenceOf(reader, $"circuit[{i}]", array[i], LayoutLists.Circuits);
            if (i < count) circuits[i] = circuit;
        }

        return circuits;
    }

    // One coil a section unless said: a number for all, a number per section, or the coils' places on the plan.
    private static int[] Coils(FieldReader reader, PlanLine front, double[] cuts)
    {
        var coils = new int[cuts.Length - 1];
        Array.Fill(coils, 1);
        if (reader["coils"] is JsonArray { Count: > 0 } array && array[0] is JsonArray)
        {
            if (reader.Points("coils") is not { } points) return coils;
            var places = points.Select(p => front.Project(p).Along).ToList();
            for (var i = 0; i < coils.Length; i++)
            {
                coils[i] = Math.Max(1, places.Count(a => a >= cuts[i] && (a < cuts[i + 1] || i == coils.Length - 1)));
            }
        }
        else if (reader["coils"] is JsonArray each)
        {
            if (each.Count != coils.Length) reader.Error("coils", each, "coil-count", $"There are {each.Count} numbers of coils for {coils.Length} sections; give one for all, or one per section.");
            for (var i = 0; i < Math.Min(coils.Length, each.Count); i++)
            {
                coils[i] = (int)Math.Round(reader.NumberOf($"coils[{i}]", each[i], 1, MostCoils, "") ?? 1);
            }
        }
        else if (reader.Whole("coils", 1, MostCoils) is { } all)
        {
            Array.Fill(coils, all);
        }

        return coils;
    }
}
