using System.Buffers.Binary;

namespace StoreMap.App.Serving;

/// <summary>Looks through a JPEG's segments without decoding it (ITU-T T.81, annex B).</summary>
internal static class PlainJpeg
{
    private const int MostSide = 4096;

    /// <summary>What keeps some bytes from being a photo as our client makes it; null when nothing does.</summary>
    public static string? Fault(ReadOnlySpan<byte> bytes)
    {
        const string NoJpeg = "This is no JPEG picture.";
        if (bytes.Length < 4 || bytes[0] != 0xFF || bytes[1] != 0xD8 || bytes[^2] != 0xFF || bytes[^1] != 0xD9) return NoJpeg;
        var framed = false;
        for (var at = 2; at + 4 <= bytes.Length;)
        {
            var marker = bytes[at + 1];
            var length = BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
            if (bytes[at] != 0xFF || length < 2 || at + 2 + length > bytes.Length) return NoJpeg;
            // APP1 and APP13 hold where and with what a picture was taken; comments hold anything.
            if (marker is 0xE1 or 0xED or 0xFE) return "The picture carries metadata, such as its place. Send it through the app, which takes them out.";
            if (marker is 0xC0 or 0xC1 or 0xC2)
            {
                if (length < 8) return NoJpeg;
                var (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 5)..]), BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 7)..]));
                if (height is 0 or > MostSide || width is 0 or > MostSide) return $"A picture has at most {MostSide} dots a side.";
                framed = true;
            }

            // The picture itself begins.
            if (marker == 0xDA) return framed ? null : NoJpeg;
            at += 2 + length;
        }

        return NoJpeg;
    }
}
