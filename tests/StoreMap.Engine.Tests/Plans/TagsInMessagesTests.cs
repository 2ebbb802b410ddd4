using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>A person knows a case by its tag and a room by its name: messages about another element call it so. Ids stand in the problem's own fields.</summary>
public class TagsInMessagesTests
{
    [Theory]
    [InlineData("no-overlap", "overlaps 27A by more than")]
    [InlineData("front-blocked", "front: 27A is there")]
    [InlineData("drop-far", "from 27A, the nearest fixture")]
    [InlineData("through-wall", "The wall of Bakery runs through")]
    public void Message_OfAnotherElement_CallsItByTagOrName(string rule, string words)
    {
        var problems = LayoutDocument.TryParse("""
            {
              "format": "storemap-layout/1", "id": "ash-end", "name": "Ash End", "units": "ft", "outline": [[0, 0], [120, 0], [120, 80], [0, 80]],
              "rooms": [{"id": "R1", "name": "Bakery", "outline": [[40, 40], [60, 40], [60, 60], [40, 60]]}],
              "fixtures": [
                {"id": "C1", "tag": "27A", "kind": "open-case", "outline": [[10, 10], [22, 10], [22, 14], [10, 14]], "front": [[10, 10], [22, 10]]},
                {"id": "C2", "tag": "28", "kind": "open-case", "outline": [[10, 12], [22, 12], [22, 17], [10, 17]], "front": [[10, 12], [22, 12]]},
                {"id": "C3", "tag": "29", "kind": "open-case", "outline": [[52, 44], [68, 44], [68, 48], [52, 48]], "front": [[52, 44], [68, 44]]}],
              "drops": [{"id": "D1", "at": [100, 70], "fixtures": ["C1"]}]
            }
            """, null, out _);
        Assert.Contains(words, Assert.Single(problems, p => p.Rule == rule).Message, StringComparison.Ordinal);
    }
}
