using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>The plain text of DXF texts: control codes of TEXT, format codes of MTEXT.</summary>
internal static partial class DxfText
{
    /// <summary>The text to show of a TEXT, ATTRIB or MTEXT.</summary>
    public static string Plain(DxfEntity entity)
    {
        var raw = string.Concat(entity.Groups.Where(g => g.Code == 3).Select(g => g.Value)) + entity.Text(1);
        raw = Unicode().Replace(raw, m => ((char)int.Parse(m.Groups[1].Value, NumberStyles.HexNumber, CultureInfo.InvariantCulture)).ToString());
        return Signs().Replace(entity.Type == "MTEXT" ? Unformatted(raw) : raw, Sign).Trim();
    }

    private static string Sign(Match match) => match.Groups[1].Value.ToUpperInvariant() switch
    {
        "D" => "°",
        "P" => "±",
        "C" => "⌀",
        "%" => "%",
        { Length: 3 } code => ((char)int.Parse(code, CultureInfo.InvariantCulture)).ToString(),
        _ => "",
    };

    private static string Unformatted(string raw)
    {
        var plain = new StringBuilder();
        for (var i = 0; i < raw.Length; i++)
        {
            if (raw[i] is '{' or '}') continue;
            if (raw[i] != '\\' || i + 1 == raw.Length)
            {
                plain.Append(raw[i]);
                continue;
            }

            var code = raw[++i];
            if (code is 'P') plain.Append('\n');
            else if (code is '~') plain.Append(' ');
            else if (code is '\\' or '{' or '}') plain.Append(code);
            else if (!"LlOoKk".Contains(code, StringComparison.Ordinal))
            {
                // A code with a value runs to its semicolon; a stacked fraction keeps its parts.
                var end = raw.IndexOf(';', i);
                var value = end < 0 ? "" : raw[(i + 1)..end];
                if (code == 'S') plain.Append(value.Replace('^', '/').Replace('#', '/'));
                if (end >= 0) i = end;
            }
        }

        return plain.ToString();
    }

    [GeneratedRegex(@"\\U\+([0-9A-Fa-f]{4})")]
    private static partial Regex Unicode();

    [GeneratedRegex(@"%%(\d{3}|[A-Za-z%])")]
    private static partial Regex Signs();
}
