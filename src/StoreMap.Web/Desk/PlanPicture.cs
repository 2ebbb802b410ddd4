using System.Runtime.InteropServices.JavaScript;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>The picture under a plan being drawn, and what is being done with it.</summary>
/// <param name="store">The store's id.</param>
/// <param name="tell">Told what went wrong, for people.</param>
internal sealed class PlanPicture(string store, Action<string> tell)
{
    private readonly List<(double X, double Y)> picked = [];

    /// <summary>What lies under the plan; null for nothing.</summary>
    public Underlay? Shown { get; private set; }

    /// <summary>How strong it shows, 0 to 1.</summary>
    public double Strength { get; set; } = 0.5;

    /// <summary>True while drags and arrow keys move it.</summary>
    public bool Moving { get; private set; }

    /// <summary>How many points are to be pressed; 0 for none.</summary>
    public int Wanted { get; private set; }

    /// <summary>Points pressed so far, in the layout's unit.</summary>
    public IReadOnlyList<(double X, double Y)> Picked => picked;

    /// <summary>Takes up the one that the device keeps.</summary>
    public async Task Open() => Shown = await Underlay.Of(store);

    /// <summary>Puts, moves, scales, straightens or takes it away, as a step that can be undone.</summary>
    public Task Set(PlanSteps steps, Underlay? to)
    {
        steps.Changed(Shown, to);
        return Show(to);
    }

    /// <summary>Moves it, where there is one, by a distance in the layout's unit.</summary>
    public Task Move(PlanSteps steps, (double X, double Y) by) =>
        Shown is { } now ? Set(steps, now with { X = now.X + by.X, Y = now.Y + by.Y }) : Task.CompletedTask;

    /// <summary>Shows another, or none, and keeps it on the disk.</summary>
    public async Task Show(Underlay? to)
    {
        var goesOn = Moving && to is not null;
        Want(0);
        // At once: the next step goes on from there.
        (Shown, Moving) = (to, goesOn);
        try
        {
            await (to ?? new Underlay { Id = Underlay.IdOf(store) }).Keep();
        }
        catch (JSException)
        {
            tell("The picture could not be kept on this device: opened again, the plan has it as it was before. Make room on the device, then do the step again.");
        }
    }

    /// <summary>Lets drags and arrow keys move it, or no longer.</summary>
    public void MoveOrNot(bool on)
    {
        Want(0);
        Moving = on;
    }

    /// <summary>Asks for points to be pressed anew.</summary>
    public void Want(int points)
    {
        picked.Clear();
        (Wanted, Moving) = (points, false);
    }

    /// <summary>Takes a point that was pressed.</summary>
    public void Pick((double X, double Y) point) => picked.Add(point);
}
