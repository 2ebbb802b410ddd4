namespace StoreMap.Web.Shared;

/// <summary>Changes that a page makes one after another, in the order in which they were asked for: keeping one takes a moment, and the next must
/// not overtake it.</summary>
internal sealed class Turns
{
    private Task last = Task.CompletedTask;

    /// <summary>Makes a change once all before it are made, or failed where they were asked for.</summary>
    public Task Take(Func<Task> change)
    {
        return last = After(last);

        async Task After(Task before)
        {
            await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
            await change();
        }
    }
}
