using System.Globalization;
using System.Text;
using CsCheck;

namespace StoreMap.Tests.Plans;

/// <summary>One generated case: an upright rectangle in quarter feet, its front side, and how it is written down.</summary>
public sealed record GenCase(string Kind, int Column, int Row, int QuarterLength, int QuarterDepth, bool FrontBelow, bool FrontReversed, bool RingReversed, int RingStart, int[] Sections);

/// <summary>A generated store: cases on a lattice of cells that they never fill, so that none meet.</summary>
public sealed record GenStore(GenCase[] Cases)
{
    private const int Cell = 160;
    private static readonly string[] Kinds = ["open-case", "door-case", "island-case", "service-case"];

    /// <summary>Generates stores of one to eight cases.</summary>
    public static Gen<GenStore> Any { get; } =
        Gen.Select(Gen.Int[0, 3].Select(i => Kinds[i]), Gen.Int[4, 12], Gen.Int[1, 3], Gen.Int[8, 32], Gen.Bool, Gen.Bool, Gen.Bool, Gen.Int[0, 3])
            .Select((kind, first, count, depth, below, front, ring, start) =>
            {
                int[] sections = [.. Enumerable.Range(0, count).Select(i => (first + (3 * i)) * 4 % 44 + 8)];
                return new GenCase(kind, 0, 0, sections.Sum(), depth, below, front, ring, start, sections);
            }).Array[1, 8].Select(cases => new GenStore([.. cases.Select((c, i) => c with { Column = i % 3, Row = i / 3 })]));

    /// <summary>Writes the store.</summary>
    /// <param name="unit">Unit symbol.</param>
    /// <param name="quarter">One quarter foot in that unit, exactly.</param>
    /// <param name="mirrored">True to mirror it left to right.</param>
    /// <param name="spelling">How a number is spelt; by default plainly.</param>
    public string Layout(string unit, decimal quarter, bool mirrored = false, Func<decimal, string>? spelling = null)
    {
        spelling ??= v => v.ToString(CultureInfo.InvariantCulture);
        const int width = (3 * Cell) + 80;
        string Number(int quarters) => spelling(quarters * quarter);
        string Point(int x, int y) => $"[{Number(mirrored ? width - x : x)},{Number(y)}]";
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{{\"format\":\"storemap-layout/1\",\"id\":\"gen\",\"name\":\"Gen\",\"units\":\"{unit}\",\"x-note\":{{\"n\":1.00e0}},");
        text.Append(CultureInfo.InvariantCulture, $"\"outline\":[{Point(0, 0)},{Point(width, 0)},{Point(width, (3 * Cell) + 80)},{Point(0, (3 * Cell) + 80)}],\"fixtures\":[");
        text.AppendJoin(',', Cases.Select((c, i) => Case(c, i, Point, Number)));
        return text.Append("]}").ToString();
    }

    private static string Case(GenCase c, int index, Func<int, int, string> point, Func<int, string> number)
    {
        int x = 40 + (c.Column * Cell), y = 40 + (c.Row * Cell), right = x + c.QuarterLength, top = y + c.QuarterDepth;
        string[] ring = [point(x, y), point(right, y), point(right, top), point(x, top)];
        ring = [.. ring[c.RingStart..], .. ring[..c.RingStart]];
        if (c.RingReversed) Array.Reverse(ring);
        var edge = c.FrontBelow ? y : top;
        string[] front = [point(x, edge), point(right, edge)];
        if (c.FrontReversed) Array.Reverse(front);
        var doors = c.Kind == "door-case" ? ",\"doors\":4" : "";
        return $"{{\"id\":\"C{index}\",\"kind\":\"{c.Kind}\",\"outline\":[{string.Join(',', ring)}],\"front\":[{string.Join(',', front)}],\"sections\":[{string.Join(',', c.Sections.Select(number))}],\"extra\":[1.50,{{}}]{doors}}}";
    }
}
