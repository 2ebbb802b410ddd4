using System.Net;

namespace StoreMap.Web.Storage;

/// <summary>A store's layout between this device and the server: sent when it was changed here, taken or put together when others did too.</summary>
internal sealed class LayoutSync(Server server, LocalStore store)
{
    private readonly HashSet<string> clashes = [];

    /// <summary>True when the server was found to have another layout of a store, which is not put together with this device's yet.</summary>
    public bool IsClash(string id) => clashes.Contains(id);

    /// <summary>Sends a store's layout when the server does not have it.</summary>
    /// <returns>What a person must look at; null for nothing.</returns>
    public async Task<string?> Send(StoreRecord record)
    {
        clashes.Remove(record.Id);
        if (record.Version > 0 && !record.Changed) return null;
        using var answer = await server.Send(HttpMethod.Put, $"api/stores/{record.Id}/layout", record.Document, record.Version);
        if (answer.IsSuccessStatusCode)
        {
            // What was changed again while it was on its way goes with the next round.
            await store.Change(record.Id, now => now with { Version = record.Version + 1, Changed = now.Document != record.Document });
            return null;
        }

        if (answer.StatusCode != HttpStatusCode.PreconditionFailed) return await Refusal();
        if (record.Version > 0 && await WasTaken(record)) return null;
        clashes.Add(record.Id);
        if (record.Version > 0) return $"Someone else saved {record.Name}'s layout. Yours stays on this device and is not sent before both are put together on the plan page.";
        if (record.Changed) return Twice(record);
        return await server.Layout(record.Id) is var (version, document) ? await Meet(record, version, document) : await Refusal();

        async Task<string> Refusal() => (await Server.Read(answer, Json.Default.ApiProblem))?.Message ?? $"The server did not take the layout of {record.Name}.";
    }

    /// <summary>Keeps a layout that was drawn on this device, to be sent.</summary>
    /// <param name="id">The store.</param>
    /// <param name="document">The layout.</param>
    /// <param name="name">The store's name.</param>
    /// <param name="from">The layout that it was made from, and its version.</param>
    /// <param name="known">The layout that this device had when it was last looked at.</param>
    /// <returns>The store; null where another window saved another layout since, which nobody else has yet and would be gone.</returns>
    public async Task<StoreRecord?> Keep(string id, string document, string name, (int Version, string Document) from, string known)
    {
        var elsewhere = false;
        var kept = await store.Change(id, now =>
        {
            elsewhere = (now.Changed || now.Version == 0) && now.Document != known;
            if (elsewhere) return null;
            // A sending may have ended since, or another one's plan come, which this one was not made from.
            var version = now.Document == from.Document ? now.Version : from.Version;
            return now with { Document = document, Name = name, Version = version, Changed = version > 0 || now.Changed, Order = now.OrderSet };
        });
        return elsewhere ? null : kept;
    }

    /// <summary>Gives up the layout that was changed here and takes the server's; false when it can't be had.</summary>
    public async Task<bool> TakeServers(string id)
    {
        try
        {
            if (await server.Layout(id) is not var (version, document)) return false;
            return await store.Change(id, now => now with { Version = version, Document = document, Changed = false, Order = now.OrderSet }) is not null;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
        {
            return false;
        }
    }

    /// <summary>The server's layout and the one that this device's was made from, if it was; null when they can't be had.</summary>
    public async Task<ServerLayouts?> Both(StoreRecord record)
    {
        try
        {
            if (await server.Layout(record.Id) is not var (version, latest)) return null;
            if (record.Version == 0) return new ServerLayouts(version, latest, null);
            return await server.Layout(record.Id, record.Version) is var (_, from) ? new ServerLayouts(version, latest, from) : null;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
        {
            return null;
        }
    }

    /// <summary>Takes a store's layout from the server where it is newer; a plan saved here stays.</summary>
    public async Task Fetch(ServerStore there)
    {
        if (!IsBehind(await store.Store(there.Id)) || await server.Layout(there.Id) is not var (version, document)) return;
        var now = await store.Change(there.Id, now => now is { Version: 0 } or { Changed: true } ? null : now with { Name = there.Name, Version = version, Document = document, Order = now.OrderSet });
        if (now is null) await store.Put(new StoreRecord { Id = there.Id, Name = there.Name, Version = version, Document = document });

        bool IsBehind(StoreRecord? here) => here is null || (here.Version > 0 && here.Version < there.Version && !here.Changed);
    }

    // The same store, sent by another device first. What the server has or had is taken as it is there now; what was drawn here stays.
    private async Task<string?> Meet(StoreRecord record, int version, string document)
    {
        var now = await store.Store(record.Id) ?? record;
        var same = document == now.Document;
        var known = same || await WasThere(now, version);
        // What was saved here while the server answered is not written over.
        var kept = await store.Change(record.Id, latest => known && latest.Document == now.Document
            ? latest with { Version = version, Document = document, Order = same ? latest.Order : null } : latest with { Changed = true });
        return kept is { Changed: true } ? Twice(record) : null;
    }

    // Sent before, and the answer lost on its way: what the server has is what this device sent.
    private async Task<bool> WasTaken(StoreRecord record)
    {
        if (await server.Layout(record.Id) is not var (version, document) || document != record.Document) return false;
        await store.Change(record.Id, now => now with { Version = version, Changed = now.Document != document });
        return true;
    }

    private static string Twice(StoreRecord record) =>
        $"{record.Name} was added by someone else too, with another layout. Yours stays on this device and is not sent before both are put together, or the server's is taken, on the plan page.";

    // Such as a store read back from a backup file, which was saved again since.
    private async Task<bool> WasThere(StoreRecord record, int before)
    {
        while (--before > 0)
        {
            if (await server.Layout(record.Id, before) is var (_, document) && document == record.Document) return true;
        }

        return false;
    }
}
