namespace StoreMap.Sheets;

/// <summary>The two faces that every sheet is set in: Inter Regular and Inter SemiBold (SIL Open Font License 1.1), carried in
/// the engine so that no machine needs an installed font and every runtime lays text out alike.</summary>
public static class Faces
{
    /// <summary>The family name under which sheets ask for the faces.</summary>
    public const string Family = "Inter";

    /// <summary>What the sheets declare: the family, then what to take where it is not at hand.</summary>
    internal const string FamilyList = "Inter, 'Helvetica Neue', Arial, sans-serif";

    private static readonly Lazy<byte[]> RegularData = new(() => Read("Inter-Regular.ttf"));
    private static readonly Lazy<byte[]> SemiBoldData = new(() => Read("Inter-SemiBold.ttf"));
    private static readonly Lazy<TrueTypeFace> RegularFace = new(() => new TrueTypeFace(RegularData.Value));
    private static readonly Lazy<TrueTypeFace> SemiBoldFace = new(() => new TrueTypeFace(SemiBoldData.Value));

    /// <summary>The TrueType file of the regular face (weight 400).</summary>
    public static ReadOnlyMemory<byte> RegularFile => RegularData.Value;

    /// <summary>The TrueType file of the semi-bold face (weight 600).</summary>
    public static ReadOnlyMemory<byte> SemiBoldFile => SemiBoldData.Value;

    internal static TrueTypeFace Regular => RegularFace.Value;

    internal static TrueTypeFace SemiBold => SemiBoldFace.Value;

    private static byte[] Read(string name)
    {
        using var stream = typeof(Faces).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The engine was built without the face {name}.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
