using System.Buffers.Binary;

namespace StoreMap.Sheets;

/// <summary>What of a TrueType face the sheets need: which characters it has and how far each advances.
/// Tables read: head, hhea, hmtx, OS/2 and cmap format 4 or 12 (OpenType specification 1.9).</summary>
internal sealed class TrueTypeFace
{
    private readonly byte[] data;
    private readonly int hmtx;
    private readonly int metricCount;
    private readonly int cmap;
    private readonly int cmapFormat;
    private readonly double[] latinAdvances = new double[0x180];

    /// <summary>Reads a face.</summary>
    /// <param name="data">The bytes of a TrueType file.</param>
    /// <exception cref="InvalidDataException">A table is missing or there is no Unicode character map of a known format.</exception>
    public TrueTypeFace(byte[] data)
    {
        this.data = data;
        UnitsPerEm = U16(Table("head") + 18);
        var hhea = Table("hhea");
        Ascent = S16(hhea + 4) / UnitsPerEm;
        Descent = -S16(hhea + 6) / UnitsPerEm;
        metricCount = (int)U16(hhea + 34);
        hmtx = Table("hmtx");
        CapHeight = S16(Table("OS/2") + 88) / UnitsPerEm;
        (cmap, cmapFormat) = FindCharacterMap(Table("cmap"));
        for (var c = 0; c < latinAdvances.Length; c++) latinAdvances[c] = AdvanceOfGlyph(Glyph(c));
    }

    /// <summary>Design units in one em.</summary>
    public double UnitsPerEm { get; }

    /// <summary>Height above the base line that a line of text may use, in ems.</summary>
    public double Ascent { get; }

    /// <summary>Depth below the base line, in ems, positive.</summary>
    public double Descent { get; }

    /// <summary>Height of the capital letters, in ems.</summary>
    public double CapHeight { get; }

    /// <summary>True when the face draws the character.</summary>
    public bool Has(int codePoint) => Glyph(codePoint) != 0;

    /// <summary>Advance of a character, in ems; that of the missing-character glyph when the face has none.</summary>
    public double Advance(int codePoint) =>
        codePoint < latinAdvances.Length ? latinAdvances[codePoint] : AdvanceOfGlyph(Glyph(codePoint));

    private double AdvanceOfGlyph(int glyph) => U16(hmtx + (4 * Math.Min(glyph, metricCount - 1))) / UnitsPerEm;

    private int Glyph(int codePoint) => cmapFormat == 12 ? GlyphFormat12(codePoint) : GlyphFormat4(codePoint);

    private int GlyphFormat12(int codePoint)
    {
        int low = 0, high = (int)U32(cmap + 12) - 1;
        while (low <= high)
        {
            var middle = (low + high) / 2;
            var group = cmap + 16 + (12 * middle);
            if (codePoint < U32(group)) high = middle - 1;
            else if (codePoint > U32(group + 4)) low = middle + 1;
            else return (int)(U32(group + 8) + codePoint - U32(group));
        }

        return 0;
    }

    private int GlyphFormat4(int codePoint)
    {
        if (codePoint > 0xFFFF) return 0;
        var segments = (int)U16(cmap + 6) / 2;
        int ends = cmap + 14, starts = ends + (2 * segments) + 2, deltas = starts + (2 * segments), offsets = deltas + (2 * segments);
        for (var i = 0; i < segments; i++)
        {
            if (codePoint > U16(ends + (2 * i))) continue;
            var start = (int)U16(starts + (2 * i));
            if (codePoint < start) return 0;
            var offset = (int)U16(offsets + (2 * i));
            if (offset == 0) return (int)(codePoint + U16(deltas + (2 * i))) & 0xFFFF;
            var glyph = U16(offsets + (2 * i) + offset + (2 * (codePoint - start)));
            return glyph == 0 ? 0 : (int)(glyph + U16(deltas + (2 * i))) & 0xFFFF;
        }

        return 0;
    }

    private (int Offset, int Format) FindCharacterMap(int table)
    {
        (int Offset, int Format) found = (0, 0);
        for (var i = 0; i < U16(table + 2); i++)
        {
            var record = table + 4 + (8 * i);
            var platform = U16(record);
            var offset = table + (int)U32(record + 4);
            var format = (int)U16(offset);
            if (platform is not (0 or 3) || format is not (4 or 12)) continue;
            if (format > found.Format) found = (offset, format);
        }

        return found.Format != 0 ? found : throw new InvalidDataException("The face has no Unicode character map of format 4 or 12.");
    }

    private int Table(string tag)
    {
        for (var i = 0; i < U16(4); i++)
        {
            var record = 12 + (16 * i);
            if (System.Text.Encoding.ASCII.GetString(data, record, 4) == tag) return (int)U32(record + 8);
        }

        throw new InvalidDataException($"The face has no table '{tag}'.");
    }

    private uint U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(data.AsSpan(at));

    private double S16(int at) => BinaryPrimitives.ReadInt16BigEndian(data.AsSpan(at));

    private uint U32(int at) => BinaryPrimitives.ReadUInt32BigEndian(data.AsSpan(at));
}
