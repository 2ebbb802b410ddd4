using System.Security.Cryptography;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.App.Shell;

/// <summary>The store that a verb works on: its layout and the probe points of the standard protocol.</summary>
internal sealed class Store
{
    private readonly Session session;

    private Store(LayoutDocument layout, Session session)
    {
        Layout = layout;
        this.session = session;
        Draft = ProbePlanner.Draft(layout.Plan, new Protocol());
    }

    public LayoutDocument Layout { get; }

    public Plan Plan => Layout.Plan;

    public ProbeDraft Draft { get; }

    public static Store Load(string path, Session session)
    {
        using var stream = InputFile.Open(path);
        var document = LayoutDocument.Read(stream, path);
        session.Warn(document.Warnings);
        return new Store(document, session);
    }

    /// <summary>Reads surveys and puts those of one date together, oldest visit first.</summary>
    /// <exception cref="RefusedInputException">All errors of all files, or surveys of another store.</exception>
    public IReadOnlyList<NetSurvey> Visits(IReadOnlyList<string> files, SurveyReadOptions options)
    {
        var surveys = new List<Survey>();
        var problems = new List<Problem>();
        var known = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var file in files)
        {
            try
            {
                if (Known(known, file) is { } first)
                {
                    session.Warn([new Problem(Severity.Warning, file, null, null, null, "file-twice", $"It holds the same as {first} and is counted once.")]);
                    continue;
                }

                var read = Read(file, options);
                session.Warn(read.Warnings);
                surveys.Add(read.Survey);
            }
            catch (RefusedInputException refused)
            {
                problems.AddRange(refused.Problems);
            }
        }

        if (problems.Exists(p => p.Severity == Severity.Error)) throw new RefusedInputException(problems);
        return [.. StoreMap.Surveys.Visits.ByDate(surveys).Select(s => Net(s, options))];
    }

    /// <summary>The file with the same content that was given before; null for none.</summary>
    private static string? Known(Dictionary<string, string> known, string file)
    {
        using var stream = InputFile.Open(file);
        var content = Convert.ToHexString(SHA256.HashData(stream));
        return known.TryAdd(content, file) ? null : known[content];
    }

    /// <summary>Reads one survey or readings file.</summary>
    public SurveyReadResult Read(string file, SurveyReadOptions options)
    {
        using var stream = InputFile.Open(file);
        return SurveyReader.Read(stream, file, Plan, Draft.Points, options);
    }

    /// <summary>Reads the service record.</summary>
    public ServiceRecord Service(string file)
    {
        using var stream = InputFile.Open(file);
        var read = ServiceRecordFile.Read(stream, file, Plan);
        session.Warn(read.Warnings);
        return read.Record;
    }

    private NetSurvey Net(Survey survey, SurveyReadOptions options)
    {
        var net = NetSurveyBuilder.Build(Plan, survey, new SurveySettings { Responses = options.Responses });
        session.Warn(net.Warnings.Select(w => w with { File = w.File ?? FormattableString.Invariant($"visit of {survey.Start:yyyy-MM-dd}") }));
        return net;
    }
}
