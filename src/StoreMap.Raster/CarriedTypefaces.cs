using System.Buffers.Binary;
using SkiaSharp;
using StoreMap.Sheets;
using Svg.Skia.TypefaceProviders;

namespace StoreMap.Raster;

/// <summary>Hands the engine's own faces to the renderer, whatever family is asked for: no installed font takes part.</summary>
internal sealed class CarriedTypefaces : ITypefaceProvider
{
    private static readonly Lazy<SKTypeface> Regular = new(() => Load(Faces.RegularFile));
    private static readonly Lazy<SKTypeface> SemiBold = new(() => Load(Faces.SemiBoldFile));

    /// <inheritdoc/>
    public SKTypeface? FromFamilyName(string fontFamily, SKFontStyleWeight fontWeight, SKFontStyleWidth fontWidth, SKFontStyleSlant fontStyle) =>
        fontWeight >= SKFontStyleWeight.SemiBold ? SemiBold.Value : Regular.Value;

    /// <summary>The face of a weight.</summary>
    internal static SKTypeface Face(bool bold) => bold ? SemiBold.Value : Regular.Value;

    private static SKTypeface Load(ReadOnlyMemory<byte> file)
    {
        var bytes = file.ToArray();
        HideShaping(bytes);
        using var data = SKData.CreateCopy(bytes);
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException("The carried face could not be read.");
    }

    /// <summary>Renames the tables of substitution and kerning in the face's directory, so that nothing shapes the text: the engine measured
    /// plain advances, and a substituted sign (a raised hyphen between figures) has no character that a PDF could be searched for.</summary>
    internal static void HideShaping(Span<byte> face)
    {
        const int Header = 12;
        const int Entry = 16;
        var tables = BinaryPrimitives.ReadUInt16BigEndian(face[4..]);
        for (var i = 0; i < tables; i++)
        {
            var tag = face.Slice(Header + (i * Entry), 4);
            if (tag.SequenceEqual("GSUB"u8) || tag.SequenceEqual("GPOS"u8) || tag.SequenceEqual("kern"u8)) tag[3] = (byte)'_';
        }
    }
}
