using System.Text;

namespace StoreMap.Plans;

/// <summary>Finds a CSV's encoding and separator.</summary>
internal static class CsvText
{
    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Decodes a whole stream: UTF-8 or UTF-16 by byte order mark, UTF-16 by its zero bytes, else UTF-8; bytes that are no
    /// UTF-8 are read as Latin-1 with a warning.</summary>
    /// <exception cref="RefusedInputException">The stream is longer than the limit, or is not text.</exception>
    public static string Decode(Stream stream, string? file, int maxBytes, List<Problem> warnings)
    {
        using var whole = ReadAll(stream, file, maxBytes);
        var bytes = whole.GetBuffer().AsSpan(0, (int)whole.Length);
        if (bytes.StartsWith<byte>([0xFF, 0xFE])) return Encoding.Unicode.GetString(bytes[2..]);
        if (bytes.StartsWith<byte>([0xFE, 0xFF])) return Encoding.BigEndianUnicode.GetString(bytes[2..]);
        if (bytes.StartsWith<byte>([0xEF, 0xBB, 0xBF])) bytes = bytes[3..];
        if (bytes.Length >= 4 && bytes[0] != 0 && bytes[1] == 0 && bytes[3] == 0) return Encoding.Unicode.GetString(bytes);
        if (bytes.Length >= 4 && bytes[0] == 0 && bytes[1] != 0 && bytes[2] == 0) return Encoding.BigEndianUnicode.GetString(bytes);
        if (bytes.Contains<byte>(0))
        {
            throw Refused(file, "csv-text", "This is not a text file. Save the table as CSV (UTF-8) and try again.");
        }

        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            warnings.Add(new Problem(Severity.Warning, file, null, null, null, "csv-encoding",
                "The file is not UTF-8; it was read as Latin-1. Accented letters in notes may be wrong: save it as CSV (UTF-8)."));
            return Encoding.Latin1.GetString(bytes);
        }
    }

    /// <summary>The first row to read (2 when row 1 is a <c>sep=</c> line) and the separator: the one of comma, semicolon and tab
    /// that stands most often in the header outside quotes; a comma when there is none.</summary>
    public static (int FirstRow, char Separator) Dialect(string text)
    {
        var line = text.AsSpan();
        var end = line.IndexOfAny('\r', '\n');
        if (end >= 0) line = line[..end];
        var declared = line.Trim();
        if (declared.Length == 5 && declared.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) && ",;\t".Contains(declared[4]))
        {
            return (2, declared[4]);
        }

        // A blank first line says nothing: look at the first line that holds something.
        line = text.AsSpan().TrimStart();
        Span<int> counts = stackalloc int[3];
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"') quoted = !quoted;
            else if (!quoted && c is '\r' or '\n') break;
            else if (!quoted && ";\t,".IndexOf(c) is var i and >= 0) counts[i]++;
        }

        var best = 0;
        for (var i = 1; i < 3; i++)
        {
            if (counts[i] > counts[best]) best = i;
        }

        return (1, counts[best] == 0 ? ',' : ";\t,"[best]);
    }

    /// <summary>Copies a whole stream into memory, from its start on.</summary>
    /// <exception cref="RefusedInputException">The stream is longer than the limit.</exception>
    public static MemoryStream ReadAll(Stream stream, string? file, int maxBytes)
    {
        var copy = new MemoryStream();
        var buffer = new byte[81920];
        int read;
        while ((read = stream.Read(buffer, 0, buffer.Length)) > 0)
        {
            copy.Write(buffer, 0, read);
            if (copy.Length > maxBytes)
            {
                throw Refused(file, "csv-size",
                    $"The file is larger than the limit of {maxBytes >> 20} MiB. Split it, one visit to a file.");
            }
        }

        copy.Position = 0;
        return copy;
    }

    private static RefusedInputException Refused(string? file, string rule, string message) =>
        new([new Problem(Severity.Error, file, null, null, null, rule, message)]);
}
