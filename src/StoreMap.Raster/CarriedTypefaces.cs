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
        using var data = SKData.CreateCopy(file.Span);
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException("The carried face could not be read.");
    }
}
