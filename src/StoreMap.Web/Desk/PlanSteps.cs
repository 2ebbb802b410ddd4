using StoreMap.Editing;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>Steps on the plan page, of the layout and of the picture under it, undone in the order in which they were made.</summary>
/// <param name="editor">The layout being drawn; all its edits are made here.</param>
internal sealed class PlanSteps(LayoutEditor editor)
{
    // Null stands for an edit of the layout, which knows its own.
    private readonly List<PictureStep?> past = [];
    private readonly List<PictureStep?> future = [];

    public bool CanUndo => past.Count > 0;

    public bool CanRedo => future.Count > 0;

    /// <summary>Does an edit of the layout.</summary>
    /// <returns>Ids of the elements that it made or changed.</returns>
    public IReadOnlyList<string> Do(LayoutEdit edit)
    {
        var before = editor.Text;
        var made = editor.Do(edit);
        if (editor.Text != before) Add(null);
        return made;
    }

    /// <summary>Notes that the picture was put, moved, scaled, straightened or taken away.</summary>
    public void Changed(Underlay? before, Underlay? after)
    {
        if (before != after) Add(new PictureStep(before, after));
    }

    /// <summary>Takes the last step back.</summary>
    /// <param name="now">The picture that is shown.</param>
    /// <returns>The picture to show: the same where the step was the layout's.</returns>
    public Underlay? Undo(Underlay? now)
    {
        if (past.Count == 0) return now;
        var step = Last(past, future);
        if (step is not null) return step.Before;
        editor.Undo();
        return now;
    }

    /// <summary>Does the last step that was undone again.</summary>
    /// <param name="now">The picture that is shown.</param>
    /// <returns>As for <see cref="Undo"/>.</returns>
    public Underlay? Redo(Underlay? now)
    {
        if (future.Count == 0) return now;
        var step = Last(future, past);
        if (step is not null) return step.After;
        editor.Redo();
        return now;
    }

    private static PictureStep? Last(List<PictureStep?> from, List<PictureStep?> to)
    {
        var step = from[^1];
        from.RemoveAt(from.Count - 1);
        to.Add(step);
        return step;
    }

    private void Add(PictureStep? step)
    {
        // The layout remembers as many of its own.
        past.Add(step);
        if (past.Count > LayoutEditor.MostUndo) past.RemoveAt(0);
        future.Clear();
    }

    private sealed record PictureStep(Underlay? Before, Underlay? After);
}
