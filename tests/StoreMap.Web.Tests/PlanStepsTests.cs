using System.Runtime.Versioning;
using StoreMap.Editing;
using StoreMap.Web.Desk;
using StoreMap.Web.Storage;

namespace StoreMap.Tests;

/// <summary>Steps of a layout and of the picture under it, undone in their order. Needs no browser.</summary>
[SupportedOSPlatform("browser")]
public sealed class PlanStepsTests
{
    private static readonly Underlay Put = new() { Id = "underlay-ash-end", Picture = "data:", X = 1 };
    private static readonly Underlay Moved = Put with { X = 5 };

    private readonly LayoutEditor editor = new("""
        {"format": "storemap-layout/1", "id": "ash-end", "name": "Ash End", "units": "ft", "outline": [[0, 0], [120, 0], [120, 80], [0, 80]]}
        """);

    private readonly PlanSteps steps;

    public PlanStepsTests() => steps = new PlanSteps(editor);

    [Fact]
    public void Steps_OfLayoutAndPictureInTurn_AreUndoneAndRedoneInTheirOrder()
    {
        List<(string Text, Underlay? Picture)> states = [(editor.Text, null)];
        AddShelf(2);
        states.Add((editor.Text, null));
        steps.Changed(null, Put);
        states.Add((editor.Text, Put));
        AddShelf(20);
        states.Add((editor.Text, Put));
        steps.Changed(Put, Moved);
        states.Add((editor.Text, Moved));
        Assert.Equal(states.Count, states.Distinct().Count());

        var shown = (Underlay?)Moved;
        foreach (var (text, picture) in states.SkipLast(1).Reverse())
        {
            Assert.True(steps.CanUndo);
            shown = steps.Undo(shown);
            Assert.Equal((text, picture), (editor.Text, shown));
        }

        Assert.False(steps.CanUndo);
        foreach (var (text, picture) in states.Skip(1))
        {
            Assert.True(steps.CanRedo);
            shown = steps.Redo(shown);
            Assert.Equal((text, picture), (editor.Text, shown));
        }

        Assert.False(steps.CanRedo);
    }

    [Fact]
    public void Redo_AfterAStepOfThePicture_IsNoMore()
    {
        AddShelf(2);
        steps.Undo(null);
        Assert.True(steps.CanRedo);
        steps.Changed(null, Put);
        Assert.False(steps.CanRedo);
        var text = editor.Text;
        Assert.Same(Put, steps.Redo(Put));
        Assert.Equal(text, editor.Text);
        Assert.Null(steps.Undo(Put));
        Assert.Equal(text, editor.Text);
    }

    [Fact]
    public void Step_ThatChangesNothing_IsNone()
    {
        AddShelf(2);
        steps.Undo(null);
        steps.Do(new MoveEdit(["missing"], 1, 1));
        steps.Changed(Put, Put with { });
        Assert.False(steps.CanUndo);
        Assert.True(steps.CanRedo);
    }

    [Fact]
    public void Picture_TakenAway_IsThereAgainWhenThatIsUndone()
    {
        steps.Changed(null, Put);
        steps.Changed(Put, null);
        Assert.Same(Put, steps.Undo(null));
        Assert.Null(steps.Undo(Put));
        Assert.False(steps.CanUndo);
        Assert.Same(Put, steps.Redo(null));
        Assert.Null(steps.Redo(Put));
    }

    private void AddShelf(double x) => steps.Do(new AddAreaEdit("obstacles", "shelving", "Shelf", x, 4, 6, 4));
}
