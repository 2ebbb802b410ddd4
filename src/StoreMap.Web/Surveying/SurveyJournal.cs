using System.Text.Json.Nodes;
using StoreMap.Surveys;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Surveying;

/// <summary>The journal of the survey at hand: what the device keeps of it, and the entries that this device adds.</summary>
internal sealed class SurveyJournal(LocalStore store, Sync sync, TimeProvider clock)
{
    // What two readings of one thing have in common.
    private static readonly string[] Same = ["point", "height", "air"];

    private readonly List<JournalEvent> events = [];
    private string survey = "";
    private int number;

    /// <summary>All entries known, this device's and those that came.</summary>
    public IReadOnlyList<JournalEvent> Events => events;

    /// <summary>Turns to another survey.</summary>
    public void Begin(string of)
    {
        events.Clear();
        (survey, number) = (of, 0);
    }

    /// <summary>Takes in what the device has got since. What is noted while it is read is in the list already.</summary>
    /// <returns>False when another survey was turned to meanwhile.</returns>
    public async Task<bool> TakeIn()
    {
        var asked = survey;
        var read = await store.Events(asked);
        if (survey != asked) return false;
        var known = events.Select(e => e.Id).ToHashSet();
        events.AddRange(read.Where(e => known.Add(e.Id)));
        number = events.Where(e => e.Device == store.Device).Select(e => e.Number + 1).Append(number).Max();
        return true;
    }

    /// <summary>Readings of a device that a new one takes the place of: of the same point, height and air, not taken back yet.</summary>
    /// <param name="reading">The new one.</param>
    /// <param name="device">The device.</param>
    public IReadOnlyList<JournalEvent> Like(JsonObject reading, string device)
    {
        var gone = events.Where(e => e.Kind == JournalKinds.Withdraw).Select(e => (string?)e.Body["of"]).ToHashSet();
        return [.. events.Where(e => e.Kind == JournalKinds.Reading && e.Device == device && !gone.Contains(e.Id) && Same.All(f => (string?)e.Body[f] == (string?)reading[f]))];
    }

    /// <summary>Adds an entry. It is on the disk when this returns.</summary>
    /// <returns>Its id.</returns>
    public Task<string> Note(string kind, JsonObject body) => Note(kind, body, store.Add);

    /// <summary>Adds an entry that is kept together with something else.</summary>
    /// <param name="kind">One of <see cref="JournalKinds"/>.</param>
    /// <param name="body">What it tells.</param>
    /// <param name="keep">Brings it to the disk.</param>
    public async Task<string> Note(string kind, JsonObject body, Func<JournalEvent, Task> keep)
    {
        var e = new JournalEvent
        {
            Id = store.NewEventId(), Survey = survey, Device = store.Device, Number = number++, Time = clock.GetLocalNow(), Kind = kind, Body = body,
        };
        await keep(e);
        events.Add(e);
        sync.Added();
        return e.Id;
    }
}
