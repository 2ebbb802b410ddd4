namespace StoreMap.Sheets;

/// <summary>Sets items into columns, one after the other.</summary>
internal static class FlowColumns
{
    /// <summary>Fills columns in order.</summary>
    /// <param name="svg">Where to draw.</param>
    /// <param name="items">What to set.</param>
    /// <param name="columns">The columns.</param>
    /// <returns>What found no room, to be set on the next page; empty when all is set.</returns>
    public static IReadOnlyList<FlowItem> Fill(SvgWriter svg, IReadOnlyList<FlowItem> items, IReadOnlyList<SheetBox> columns)
    {
        var rest = new LinkedList<FlowItem>(items);
        FlowItem? section = null;
        foreach (var column in columns)
        {
            if (rest.Count == 0) break;
            section = FillOne(svg, rest, column, section, columns.Max(c => c.Height));
            // What only parts two items is no text to turn a page for, and what follows it is under no heading.
            for (; rest.First is { Value.Parts: true }; section = null) rest.RemoveFirst();
            // Text that runs on stands under its heading again; a table repeats its own head.
            if (rest.First is { Value: { GoesOn: null, RepeatAtHead: null } } && section is not null) rest.AddFirst(section);
        }

        return [.. rest];
    }

    /// <summary>Height that items take in one column.</summary>
    public static double Height(IReadOnlyList<FlowItem> items, double width) =>
        items.Sum(i => i.Height(width) + i.After) - (items.Count > 0 ? items[^1].After : 0);

    /// <summary>Fills one column from the head of a list that does not begin with what only parts two items.</summary>
    /// <returns>What stands above the rest should the text under the last heading run on; null when there was no heading.</returns>
    private static FlowItem? FillOne(SvgWriter svg, LinkedList<FlowItem> rest, SheetBox column, FlowItem? section, double highest)
    {
        var y = column.Y;
        // In a column too low for both, the text goes before its repeated heading.
        if (rest.First is { } again && again.Value.GoesOn == again.Value && !FitsWithNext(again, column.Width, column.Height - again.Value.Height(column.Width) - again.Value.After, false))
        {
            section = again.Value;
            rest.RemoveFirst();
        }

        if (rest.First!.Value.RepeatAtHead is { } head && head != rest.First.Value)
        {
            head.Draw(svg, new(column.X, y), column.Width);
            y += head.Height(column.Width) + head.After;
        }

        var empty = true;
        while (rest.First is { } node)
        {
            var item = node.Value;
            var height = item.Height(column.Width);
            var room = column.Bottom - y;
            var must = empty && !HasRoomElsewhere(node, column.Width, highest);
            if (height <= room + 1e-9 && FitsWithNext(node, column.Width, room - height - item.After, must))
            {
                item.Draw(svg, new(column.X, y), column.Width);
                y += height + item.After;
                rest.RemoveFirst();
                section = item.Parts ? null : item.GoesOn ?? section;
                empty = false;
                continue;
            }

            if (item.Split(column.Width, room) is { } parts)
            {
                parts.Head.Draw(svg, new(column.X, y), column.Width);
                node.Value = parts.Tail;
            }
            else if (must)
            {
                // Nothing in this column is high enough: draw it all the same rather than turn pages for ever.
                item.Draw(svg, new(column.X, y), column.Width);
                rest.RemoveFirst();
            }

            return section;
        }

        return section;
    }

    // A heading whose text is too high for a low column under a plan goes on with it to a page that has a higher one, as this page has.
    private static bool HasRoomElsewhere(LinkedListNode<FlowItem> node, double width, double highest) =>
        node.Value.KeepWithNext && node.Next is { } next && node.Value.Height(width) + node.Value.After + next.Value.Height(width) <= highest;

    private static bool FitsWithNext(LinkedListNode<FlowItem> node, double width, double room, bool empty)
    {
        while (node.Value.KeepWithNext && node.Next is { } next && !empty)
        {
            var need = next.Value.Height(width);
            if (need > room + 1e-9) return !next.Value.KeepWithNext && next.Value.Split(width, room) is not null;
            room -= need + next.Value.After;
            node = next;
        }

        return true;
    }
}
