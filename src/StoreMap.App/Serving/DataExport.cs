using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Data;
using StoreMap.Plans;

namespace StoreMap.App.Serving;

/// <summary>The data folder's content as files that stand on their own.</summary>
internal static class DataExport
{
    // Every entry of an export has the same time, so that the same content gives the same bytes.
    private static readonly DateTimeOffset Epoch = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static byte[] Zip(Layouts layouts, Journal journal, Photos photos, Findings findings)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in Files(layouts, journal, photos, findings))
            {
                var entry = zip.CreateEntry(name);
                entry.LastWriteTime = Epoch;
                using var stream = entry.Open();
                stream.Write(content);
            }
        }

        return bytes.ToArray();
    }

    /// <summary>All files: layouts, surveys, journals letter for letter, photos, service records with the trail of who sent what.</summary>
    public static IEnumerable<(string Name, byte[] Content)> Files(Layouts layouts, Journal journal, Photos photos, Findings findings)
    {
        foreach (var store in layouts.Stores())
        {
            var layout = layouts.Latest(store.Id)!;
            yield return ($"{store.Id}/{store.Id}.layout.json", Encoding.UTF8.GetBytes(layout.Document));
            foreach (var survey in journal.Surveys(store.Id))
            {
                yield return ($"{store.Id}/{survey.Id}.survey.json", SurveysApi.SurveyFile(survey, layout, journal));
                yield return ($"{store.Id}/{survey.Id}.journal.jsonl", Lines(journal.Events(survey.Id).Select(e => e.Document)));
                foreach (var photo in Of(photos, PhotoOwner.Survey, survey.Id)) yield return ($"{store.Id}/{survey.Id}.photos/{photo.Name}", photo.Content);
            }

            var record = FindingsApi.Record(LayoutDocument.Parse(layout.Document).Plan, findings, journal);
            if (record.Record.Entries.Count + record.Record.Movements.Count > 0) yield return ($"{store.Id}/{store.Id}.service.json", FindingsApi.RecordFile(record));
            var entries = findings.Of(store.Id);
            foreach (var photo in Of(photos, PhotoOwner.Store, store.Id)) yield return ($"{store.Id}/{store.Id}.photos/{photo.Name}", photo.Content);
            if (entries.Count > 0) yield return ($"{store.Id}/{store.Id}.findings.jsonl", Lines(entries.Select(Trail)));
        }
    }

    private static IEnumerable<(string Name, byte[] Content)> Of(Photos photos, PhotoOwner kind, string owner) =>
        photos.Of(kind, owner).Select(photo => (photo + ".jpg", photos.Find(kind, owner, photo)!));

    // Who sent an entry and when it was received stand beside it, as it was written.
    private static string Trail(FindingEntryRow e) => new JsonObject { ["at"] = e.At.ToString("O", CultureInfo.InvariantCulture), ["sender"] = e.Sender, ["event"] = e.Document }.ToJsonString();

    private static byte[] Lines(IEnumerable<string> documents) => Encoding.UTF8.GetBytes(string.Concat(documents.Select(d => d.ReplaceLineEndings(" ") + "\n")));
}
