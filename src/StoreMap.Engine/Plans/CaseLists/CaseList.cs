namespace StoreMap.Plans;

/// <summary>Makes a schematic layout of a case list, a CSV with one fixture a row, so that a store can be routed, logged and located in
/// before anybody has drawn it. Columns and rules: docs/formats.md.</summary>
public static class CaseList
{
    /// <summary>Rows at most.</summary>
    internal const int MostRows = 1000;

    // As the layout's other coordinates.
    private const int Decimals = 4;

    /// <summary>Reads a case list and lays its fixtures out in rows with aisles of 8 ft in a plausible rectangle.</summary>
    /// <param name="stream">The CSV: <c>tag,kind,lengths,circuit,system,refrigerant,product,doors,lineUp,name</c>, in any order and
    /// any usual dialect; only <c>tag</c> and <c>lengths</c> are required.</param>
    /// <param name="fileName">Its name, for messages; may be null.</param>
    /// <param name="options">Unit, id and name.</param>
    /// <returns>A layout that passes the checks; its warnings begin with those of the list. Places are made up: lengths, sections,
    /// circuits and systems are the list's.</returns>
    /// <exception cref="RefusedInputException">Rows that can't be used; all of them at once.</exception>
    public static LayoutDocument Read(Stream stream, string? fileName = null, CaseListOptions? options = null)
    {
        options ??= new CaseListOptions();
        List<Problem> shape = [];
        var table = CsvTable.Read(stream, fileName, shape, new CsvLimits(Bytes: 4 << 20, Rows: MostRows));
        var problems = new ProblemList(fileName);
        var listed = options.ListUnits ?? options.Units;
        var rows = CaseRowReader.Read(table, listed, problems);
        if (listed != options.Units) rows = [.. rows.Select(r => r with { Lengths = [.. r.Lengths.Select(l => Math.Round(options.Units.FromMetres(l * listed.InMetres()), Decimals))] })];
        var plant = CaseListPlant.Of(rows, problems);
        if (shape.Count > 0 || problems.HasErrors) throw new RefusedInputException([.. shape, .. problems.All, .. table.Warnings]);

        var json = CaseListJson.Layout(rows, plant, CaseListFloor.Arrange(rows, options.Units), options, NewIds.LayoutId(options.Id ?? fileName));
        return LayoutDocument.FromJson(json, fileName).After([.. table.Warnings, .. problems.All]);
    }
}
