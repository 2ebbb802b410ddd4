using System.Text;

namespace StoreMap.Plans;

/// <summary>Reads a text input as people's programs write it: UTF-8 with or without BOM, or UTF-16 with one; bounded in size.</summary>
internal static class InputText
{
    /// <summary>Bytes read at most: 16 MiB, a hundred times a big store's layout or a day's log at 10 Hz.</summary>
    public const int MostBytes = 16 * 1024 * 1024;

    /// <summary>Reads all text of a stream, its BOM removed.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="file">Its name, for messages.</param>
    /// <exception cref="RefusedInputException">It is longer than <see cref="MostBytes"/>, or is no text in these encodings.</exception>
    public static string Read(Stream stream, string? file) => Decode(Bytes(stream, file), file);

    /// <summary>Reads all bytes of a stream, at most <see cref="MostBytes"/>.</summary>
    /// <exception cref="RefusedInputException">It is longer.</exception>
    public static byte[] Bytes(Stream stream, string? file)
    {
        using var kept = new MemoryStream();
        var buffer = new byte[81920];
        for (int n; (n = stream.Read(buffer, 0, buffer.Length)) > 0;)
        {
            if (kept.Length + n > MostBytes) throw Refused(file, "file-size", "The file is larger than 16 MiB, which no StoreMap input needs; split it or check that it is the right file.");
            kept.Write(buffer, 0, n);
        }

        return kept.ToArray();
    }

    private static string Decode(ReadOnlySpan<byte> bytes, string? file)
    {
        try
        {
            var text = bytes switch
            {
                [0xEF, 0xBB, 0xBF, .. var rest] => Strict8.GetString(rest),
                [0xFF, 0xFE, .. var rest] => Strict16Little.GetString(rest),
                [0xFE, 0xFF, .. var rest] => Strict16Big.GetString(rest),
                _ => Strict8.GetString(bytes),
            };
            if (!text.Contains('\0', StringComparison.Ordinal)) return text;
        }
        catch (DecoderFallbackException)
        {
            // Told below: the same advice as for zero characters.
        }

        throw Refused(file, "encoding", "The file is no UTF-8 text (nor UTF-16 with a byte order mark). Save it as UTF-8 text and try again.");
    }

    private static readonly UTF8Encoding Strict8 = new(false, throwOnInvalidBytes: true);
    private static readonly UnicodeEncoding Strict16Little = new(bigEndian: false, byteOrderMark: false, throwOnInvalidBytes: true);
    private static readonly UnicodeEncoding Strict16Big = new(bigEndian: true, byteOrderMark: false, throwOnInvalidBytes: true);

    private static RefusedInputException Refused(string? file, string rule, string message) =>
        new([new Problem(Severity.Error, file, null, null, null, rule, message)]);
}
