using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>A layout being drawn: edits one after another, each undone and done again, checked after every one. It works on the file's JSON,
/// so untouched numbers and unknown fields stay as they were read.</summary>
/// <remarks>A layout may be wrong on the way, as while two cases are pushed past each other; <see cref="CanSave"/> is then false.</remarks>
public sealed class LayoutEditor
{
    /// <summary>Edits that can be undone.</summary>
    public const int MostUndo = 200;

    private readonly List<string> past = [];
    private readonly List<string> future = [];

    /// <summary>Takes up a layout.</summary>
    /// <param name="text">The layout file's text, without errors.</param>
    /// <exception cref="RefusedInputException">It has errors.</exception>
    public LayoutEditor(string text)
    {
        Text = LayoutWriter.Text(LayoutDocument.Parse(text).Root);
        Check();
    }

    /// <summary>The layout as it would be written.</summary>
    public string Text { get; private set; }

    /// <summary>Its plan; the last right one while the layout has errors.</summary>
    public Plan Plan { get; private set; } = null!;

    /// <summary>The layout's JSON as it stands; not to be changed.</summary>
    public JsonObject Root { get; private set; } = null!;

    /// <summary>All that is wrong or odd, each with its element.</summary>
    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    /// <summary>True when the layout has no error.</summary>
    public bool CanSave { get; private set; }

    /// <summary>True when there is an edit to undo.</summary>
    public bool CanUndo => past.Count > 0;

    /// <summary>True when there is an undone edit to do again.</summary>
    public bool CanRedo => future.Count > 0;

    /// <summary>Does an edit. One that changes nothing leaves no trace.</summary>
    /// <param name="edit">The edit.</param>
    /// <returns>Ids of the elements that it made or changed.</returns>
    public IReadOnlyList<string> Do(LayoutEdit edit)
    {
        var root = Root.DeepClone().AsObject();
        var touched = edit.Apply(new LayoutElementsJson(root));
        var text = LayoutWriter.Text(root);
        if (text == Text) return touched;
        past.Add(Text);
        if (past.Count > MostUndo) past.RemoveAt(0);
        future.Clear();
        Text = text;
        Check();
        return touched;
    }

    /// <summary>Takes the last edit back; nothing when there is none.</summary>
    public void Undo() => Step(past, future);

    /// <summary>Does the last undone edit again; nothing when there is none.</summary>
    public void Redo() => Step(future, past);

    private void Step(List<string> from, List<string> to)
    {
        if (from.Count == 0) return;
        to.Add(Text);
        Text = from[^1];
        from.RemoveAt(from.Count - 1);
        Check();
    }

    private void Check()
    {
        Root = JsonNode.Parse(Text)!.AsObject();
        Problems = LayoutDocument.TryParse(Text, null, out var document);
        CanSave = document is not null;
        if (document is not null) Plan = document.Plan;
    }
}
