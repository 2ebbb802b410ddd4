using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.App.Shell;

/// <summary>One run of one verb: where its words go. Results to <see cref="Out"/>, messages and progress to
/// <see cref="Error"/>; with <see cref="Json"/> one machine-readable document on <see cref="Out"/> and nothing else there.</summary>
internal sealed class Session(TextReader input, TextWriter output, TextWriter error, bool json, bool showProgress, CancellationToken cancel)
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private int lastPercent = -1;

    /// <summary>What is typed or piped in.</summary>
    public TextReader In { get; } = input;

    public TextWriter Out { get; } = output;

    public TextWriter Error { get; } = error;

    public bool Json { get; } = json;

    public CancellationToken Cancel { get; } = cancel;

    /// <summary>A line of the answer; silent when a document was asked for.</summary>
    public void Say(string line)
    {
        if (!Json) Out.WriteLine(line);
    }

    /// <summary>A line about the work, never part of the answer.</summary>
    public void Note(string line) => Error.WriteLine(line);

    /// <summary>Warnings, one a line.</summary>
    public void Warn(IEnumerable<Problem> warnings)
    {
        foreach (var w in warnings) Note($"warning: {w}");
    }

    /// <summary>The machine-readable answer; silent unless asked for.</summary>
    public void Document(Func<JsonNode> document)
    {
        if (Json) Out.WriteLine(document().ToJsonString(Indented));
    }

    /// <summary>Ends a verb whose document is written beside its sheets: files first, then the document or the words.</summary>
    /// <param name="folder">Folder to write to; null writes nothing.</param>
    /// <param name="name">File name of the document.</param>
    /// <param name="document">The document.</param>
    /// <param name="words">The same in words.</param>
    /// <param name="sheets">Adds the sheets to the files.</param>
    public void Finish(string? folder, string name, Func<JsonNode> document, IEnumerable<string> words, Action<OutputFiles, string> sheets)
    {
        var files = new OutputFiles();
        if (folder is not null)
        {
            files.Add(Path.Combine(folder, name), Bytes(document()));
            sheets(files, folder);
        }

        var written = files.Commit(Cancel);
        Document(document);
        foreach (var line in words) Say(line);
        foreach (var file in written) Say($"Wrote {file}");
    }

    /// <summary>A progress sink for one named piece of work, [0, 1].</summary>
    public IProgress<double> Progress(string work) => new Sink(share =>
    {
        if (!showProgress) return;
        var percent = (int)Math.Clamp(share * 100, 0, 100);
        if (percent == lastPercent) return;
        lastPercent = percent;
        Error.Write($"\r{work} {percent} %");
        if (percent == 100) Error.WriteLine();
    });

    /// <summary>Writes a JSON document as the files of the data folder have it: indented, LF, UTF-8 without a mark.</summary>
    public static byte[] Bytes(JsonNode node) => Encoding.UTF8.GetBytes(node.ToJsonString(Indented) + "\n");

    /// <summary>Reports on the calling thread, so that lines come in order.</summary>
    private sealed class Sink(Action<double> report) : IProgress<double>
    {
        public void Report(double value) => report(value);
    }
}
