namespace StoreMap.Plans;

/// <summary>One entity of a DXF file as written.</summary>
/// <param name="Type">Such as <c>LINE</c>.</param>
/// <param name="Groups">Its groups, without the leading 0.</param>
/// <param name="Parts">The vertices of an old polyline, the attributes of an insert.</param>
/// <param name="Line">Line number where it begins.</param>
internal sealed record DxfEntity(string Type, IReadOnlyList<DxfGroup> Groups, IReadOnlyList<DxfEntity> Parts, int Line)
{
    /// <summary>Its layer as written; <c>0</c> when it names none.</summary>
    public string Layer => Text(8)?.Trim() ?? "0";

    /// <summary>True on a layout page rather than in the model.</summary>
    public bool OnPaper => Number(67, 0) == 1;

    /// <summary>The first geometry value that is no finite number; null when all are.</summary>
    public DxfGroup? Bad => Groups.Concat(Parts.SelectMany(p => p.Groups)).Where(g => g.IsNumber && g.Number is null).Select(g => (DxfGroup?)g).FirstOrDefault();

    /// <summary>The first text of a code.</summary>
    public string? Text(int code) => Groups.Where(g => g.Code == code).Select(g => g.Value).FirstOrDefault();

    /// <summary>The first number of a code.</summary>
    public double Number(int code, double otherwise) => Groups.Where(g => g.Code == code).Select(g => g.Number).FirstOrDefault() ?? otherwise;

    /// <summary>The point of codes <paramref name="code"/> and <paramref name="code"/> + 10.</summary>
    public PlanPoint Point(int code) => new(Number(code, 0), Number(code + 10, 0));
}

/// <summary>A block: its base point and entities.</summary>
internal sealed record DxfBlock(PlanPoint Base, IReadOnlyList<DxfEntity> Entities);

/// <summary>The parts of a DXF file that a plan needs.</summary>
internal sealed class DxfFile
{
    private DxfFile(int? units, IReadOnlySet<string> hidden, IReadOnlyDictionary<string, DxfBlock> blocks, IReadOnlyList<DxfEntity> entities) =>
        (Units, Hidden, Blocks, Entities) = (units, hidden, blocks, entities);

    /// <summary>Code of <c>$INSUNITS</c>; null when not said.</summary>
    public int? Units { get; }

    /// <summary>Layers frozen or switched off.</summary>
    public IReadOnlySet<string> Hidden { get; }

    /// <summary>Blocks by name.</summary>
    public IReadOnlyDictionary<string, DxfBlock> Blocks { get; }

    /// <summary>Entities of the model, in order.</summary>
    public IReadOnlyList<DxfEntity> Entities { get; }

    /// <summary>Parts the groups into sections.</summary>
    public static DxfFile Parse(IReadOnlyList<DxfGroup> groups)
    {
        int? units = null;
        HashSet<string> hidden = new(StringComparer.OrdinalIgnoreCase);
        Dictionary<string, DxfBlock> blocks = new(StringComparer.OrdinalIgnoreCase);
        List<DxfEntity> entities = [];
        foreach (var (name, from, to) in Sections(groups))
        {
            switch (name)
            {
                case "HEADER":
                    units = InsertUnits(groups, from, to);
                    break;
                case "TABLES":
                    hidden.UnionWith(Records(groups, from, to).Where(r => r.Type == "LAYER" && (r.Number(62, 7) < 0 || ((int)r.Number(70, 0) & 1) != 0)).Select(r => r.Text(2)?.Trim() ?? ""));
                    break;
                case "BLOCKS":
                    ReadBlocks(Records(groups, from, to), blocks);
                    break;
                case "ENTITIES":
                    entities.AddRange(Joined(Records(groups, from, to)).Where(e => !e.OnPaper));
                    break;
            }
        }

        return new DxfFile(units, hidden, blocks, entities);
    }

    private static IEnumerable<(string Name, int From, int To)> Sections(IReadOnlyList<DxfGroup> groups)
    {
        for (var i = 0; i + 1 < groups.Count; i++)
        {
            if (groups[i].Code != 0 || groups[i].Value.Trim() != "SECTION" || groups[i + 1].Code != 2) continue;
            var end = i + 2;
            while (end < groups.Count && !(groups[end].Code == 0 && groups[end].Value.Trim() == "ENDSEC")) end++;
            yield return (groups[i + 1].Value.Trim(), i + 2, end);
            i = end;
        }
    }

    private static int? InsertUnits(IReadOnlyList<DxfGroup> groups, int from, int to)
    {
        for (var i = from; i + 1 < to; i++)
        {
            if (groups[i].Code == 9 && groups[i].Value.Trim() == "$INSUNITS" && groups[i + 1].Number is { } code) return (int)Math.Clamp(code, 0, 99);
        }

        return null;
    }

    private static List<DxfEntity> Records(IReadOnlyList<DxfGroup> groups, int from, int to)
    {
        List<DxfEntity> records = [];
        for (var i = from; i < to;)
        {
            var next = i + 1;
            while (next < to && groups[next].Code != 0) next++;
            if (groups[i].Code == 0) records.Add(new DxfEntity(groups[i].Value.Trim(), [.. groups.Skip(i + 1).Take(next - i - 1)], [], groups[i].Line));
            i = next;
        }

        return records;
    }

    private static void ReadBlocks(List<DxfEntity> records, Dictionary<string, DxfBlock> blocks)
    {
        for (var i = 0; i < records.Count; i++)
        {
            if (records[i].Type != "BLOCK") continue;
            var end = records.FindIndex(i, r => r.Type == "ENDBLK");
            var inside = records[(i + 1)..(end < 0 ? records.Count : end)];
            blocks.TryAdd(records[i].Text(2)?.Trim() ?? "", new DxfBlock(records[i].Point(10), [.. Joined(inside)]));
            i += inside.Count;
        }
    }

    // VERTEX and ATTRIB records follow their owner up to SEQEND.
    private static IEnumerable<DxfEntity> Joined(List<DxfEntity> records)
    {
        for (var i = 0; i < records.Count; i++)
        {
            var owner = records[i];
            List<DxfEntity> parts = [];
            while (i + 1 < records.Count && records[i + 1].Type is "VERTEX" or "ATTRIB" && owner.Type is "POLYLINE" or "INSERT") parts.Add(records[++i]);
            if (owner.Type != "SEQEND") yield return owner with { Parts = parts };
        }
    }
}
