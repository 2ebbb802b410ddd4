using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Solving;

/// <summary>Long work of the desk, one piece after another, with how far it is and a way to stop it. The floor's work has a worker of its own,
/// so that a map being drawn never keeps a survey waiting.</summary>
public sealed class EngineRoom
{
    /// <summary>Names engine and client: answers of another engine are no answers of this one.</summary>
    public static readonly string Version = $"{typeof(Plans.Plan).Module.ModuleVersionId:N}{typeof(EngineRoom).Module.ModuleVersionId:N}";

    private const string Desk = "desk";

    // No listener at all would reach the script as one that fails when it is called.
    private static readonly Action<double, string> Unheard = (_, _) => { };

    private static int floor;
    private static int droppable;

    private int running;
    private int ahead;

    public event Action? Changed;

    /// <summary>What is being done, in words; null when nothing is.</summary>
    public string? Work { get; private set; }

    /// <summary>How far it is, [0, 1].</summary>
    public double Share { get; private set; }

    /// <summary>Seconds that the last piece of work took.</summary>
    public double Seconds { get; private set; }

    /// <summary>Work for the floor.</summary>
    /// <param name="method">Class and method, such as <c>EngineWork.Locate</c>.</param>
    /// <param name="args">Its arguments.</param>
    public static async Task<string> Floor(string method, params string[] args)
    {
        floor++;
        try
        {
            return await Browser.Run("floor", method, args, Unheard);
        }
        finally
        {
            floor--;
        }
    }

    /// <summary>Work for the floor that is asked for again where it was stopped.</summary>
    /// <param name="method">Class and method.</param>
    /// <param name="args">Its arguments.</param>
    /// <exception cref="JSException">It was stopped, as <see cref="IsStopped"/> tells, or failed.</exception>
    public static async Task<string> FloorWhileSeen(string method, params string[] args)
    {
        droppable++;
        try
        {
            return await Floor(method, args);
        }
        finally
        {
            droppable--;
        }
    }

    /// <summary>Stops the floor's work, where all of it may be asked for again: the processor is wanted elsewhere.</summary>
    /// <returns>False when there is none, or some that somebody waits for.</returns>
    public static bool StopFloor()
    {
        if (floor == 0 || floor != droppable) return false;
        Browser.Cancel("floor");
        return true;
    }

    /// <summary>True for work that was stopped, not refused.</summary>
    public static bool IsStopped(JSException e) => e.Message.Contains("cancelled", StringComparison.Ordinal);

    /// <summary>Asks for a piece of work.</summary>
    /// <param name="words">What it is called while it runs.</param>
    /// <param name="method">Class and method.</param>
    /// <param name="type">How the answer is read.</param>
    /// <param name="args">Its arguments.</param>
    /// <returns>The answer; null when the work was stopped.</returns>
    /// <exception cref="JSException">The engine refused or failed; the message is for people.</exception>
    public Task<T?> Ask<T>(string words, string method, JsonTypeInfo<T> type, params string[] args)
        where T : class => Ask(words, () => Browser.Run(Desk, method, args, Progress), type);

    /// <summary>As <see cref="Ask{T}(string, string, JsonTypeInfo{T}, string[])"/>, for work whose answer hangs on nothing but its arguments:
    /// this device keeps the latest answers, and a question asked before is not worked out again.</summary>
    public Task<T?> AskOnce<T>(string words, string method, JsonTypeInfo<T> type, params string[] args)
        where T : class => Ask(words, () => Browser.RunOnce(Desk, Version, method, args, Progress), type);

    /// <summary>The answer where it was worked out before; null where it was not. Nothing is worked out.</summary>
    public static async Task<T?> Kept<T>(string method, JsonTypeInfo<T> type, params string[] args)
        where T : class => await Browser.KeptOf(Version, method, args) is { Length: > 0 } kept ? JsonSerializer.Deserialize(kept, type) : null;

    /// <summary>Has a question of <see cref="AskOnce"/> answered before it is asked, without a word: whoever asks it finds the answer, or
    /// waits for the rest of it.</summary>
    /// <param name="method">Class and method.</param>
    /// <param name="args">Its arguments.</param>
    public Task Ahead(string method, params string[] args) => Quietly(() => Browser.RunOnce(Desk, Version, method, args, Unheard));

    /// <summary>Has something worked out that later questions of the desk rest on, without a word.</summary>
    /// <param name="method">Class and method.</param>
    /// <param name="args">Its arguments.</param>
    public Task Ready(string method, params string[] args) => Quietly(() => Browser.Run(Desk, method, args, Unheard));

    private async Task Quietly(Func<Task> work)
    {
        ahead++;
        try
        {
            await work();
        }
        catch (JSException)
        {
            // Whoever asks is told what is wrong.
        }
        finally
        {
            ahead--;
        }
    }

    private async Task<T?> Ask<T>(string words, Func<Task<string>> work, JsonTypeInfo<T> type)
        where T : class
    {
        var began = TimeProvider.System.GetTimestamp();
        running++;
        (Work, Share) = (words, 0);
        Changed?.Invoke();
        try
        {
            var answer = await work();
            Seconds = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
            return JsonSerializer.Deserialize(answer, type);
        }
        catch (JSException e) when (IsStopped(e))
        {
            return null;
        }
        finally
        {
            if (--running == 0) Work = null;
            Changed?.Invoke();
        }
    }

    /// <summary>Stops all work of the desk.</summary>
    public void Stop()
    {
        if (running + ahead > 0) Browser.Cancel(Desk);
    }

    private void Progress(double share, string work)
    {
        (Share, Work) = (share, work);
        Changed?.Invoke();
    }
}
