using System.Runtime.InteropServices.JavaScript;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Solving;

/// <summary>Keeps the answer up to date in the background: asked again while at work, it works once more on the latest, not on each.</summary>
public sealed class LiveAnswer
{
    private bool busy;
    private Func<Task<(string Layout, string Lengths, string Survey)>>? latest;

    public event Action? Changed;

    public Answer? Answer { get; private set; }

    public bool Working => busy;

    public string? Trouble { get; private set; }

    /// <summary>Seconds the last answer took.</summary>
    public double Seconds { get; private set; }

    public void Forget()
    {
        (Answer, Trouble, latest) = (null, null, null);
    }

    /// <summary>True when an answer was begun and dropped, so that it is to be asked for again.</summary>
    public bool IsDropped { get; private set; }

    /// <summary>Drops the answer that is being worked out, and the walk that is being planned: nobody looks at them, and a map may be wanted.</summary>
    public void Drop()
    {
        if (!EngineRoom.StopFloor() || !busy) return;
        (IsDropped, latest) = (true, null);
    }

    /// <summary>Asks for an answer; returns at once.</summary>
    /// <param name="input">Layout, the unit in which lengths are shown, and packed survey, read when the work begins.</param>
    public async void Ask(Func<Task<(string Layout, string Lengths, string Survey)>> input)
    {
        (latest, IsDropped) = (input, false);
        if (busy) return;
        busy = true;
        while (latest is { } next)
        {
            latest = null;
            Changed?.Invoke();
            await Work(next);
        }

        busy = false;
        Changed?.Invoke();
    }

    private async Task Work(Func<Task<(string Layout, string Lengths, string Survey)>> input)
    {
        try
        {
            var began = DateTimeOffset.UtcNow;
            var (layout, lengths, survey) = await input();
            Answer = AnswerText.Read(await EngineRoom.FloorWhileSeen("EngineWork.Locate", layout, lengths, survey));
            Seconds = (DateTimeOffset.UtcNow - began).TotalSeconds;
            Trouble = null;
        }
        catch (JSException e) when (EngineRoom.IsStopped(e))
        {
            // Asked for again by whoever looks next.
        }
        catch (JSException e)
        {
            Trouble = e.Message;
        }
    }
}
