using StoreMap.Editing;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>A tag names one fixture.</summary>
public class TagRuleTests
{
    private const string Store = """
        {
          "format": "storemap-layout/1", "id": "ash-end", "name": "Ash End", "units": "ft", "outline": [[0, 0], [120, 0], [120, 80], [0, 80]],
          "fixtures": [
            {"id": "C1", "tag": "27A", "kind": "open-case", "outline": [[10, 10], [22, 10], [22, 14], [10, 14]], "front": [[10, 10], [22, 10]]},
            {"id": "C2", "tag": "27a", "kind": "open-case", "outline": [[40, 10], [52, 10], [52, 14], [40, 14]], "front": [[40, 10], [52, 10]]},
            {"id": "C3", "kind": "open-case", "outline": [[70, 10], [82, 10], [82, 14], [70, 14]], "front": [[70, 10], [82, 10]]}]
        }
        """;

    /// <summary>It passed the check without a word.</summary>
    [Fact]
    public void Check_TagOfTwoFixtures_IsWarnedOfAtTheSecond()
    {
        var problem = Assert.Single(LayoutDocument.Parse(Store).Warnings, p => p.Rule == "tag-unique");
        Assert.Equal(("C2", "tag", "27a"), (problem.Element, problem.Field, problem.Value));
        Assert.DoesNotContain(LayoutDocument.Parse(Store.Replace("27a", "28", StringComparison.Ordinal)).Warnings, p => p.Rule == "tag-unique");
    }

    [Theory]
    [InlineData("27A ", "C3", true)]
    [InlineData("27A", "C1", true)]
    [InlineData("c3", "C1", true)]
    [InlineData("c3", "C3", false)]
    [InlineData("28", "C3", false)]
    public void HasTag_OfAnotherFixture_IsTold(string tag, string typedFor, bool there) =>
        Assert.Equal(there, new LayoutElementsJson(new LayoutEditor(Store).Root).HasTag(tag, typedFor));

    [Fact]
    public void List_WithTagsThatTheStoreHas_TellsThem()
    {
        using var csv = new MemoryStream("tag,lengths\n27A,12\n30,12\n"u8.ToArray());
        var listed = CaseList.Read(csv, null, new CaseListOptions { Id = "listed" });
        Assert.Equal(["27A"], new AddListedEdit(listed.Root).TagsThere(new LayoutEditor(Store).Root));
    }
}
