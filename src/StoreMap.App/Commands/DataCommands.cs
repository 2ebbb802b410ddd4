using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Serving;
using StoreMap.App.Shell;
using StoreMap.Data;

namespace StoreMap.App.Commands;

/// <summary><c>backup</c>, <c>restore</c>, <c>export</c>, <c>person</c>: the data folder from the command line.</summary>
internal static class DataCommands
{
    private static readonly Option<string> Data = ServeCommand.DataFolder();
    private static readonly Argument<string> BackupFile = new("file") { Description = "A file made by backup." };
    private static readonly Option<string> Out = Arguments.OutFile("The file to write.", "FILE");
    private static readonly Option<string> Folder = Arguments.OutFile("Folder for the files.", "DIR");
    private static readonly Argument<string> Name = new("name") { Description = "The person's name." };
    private static readonly Option<string> Role = new("--role") { Description = "office may change layouts and people; field logs.", DefaultValueFactory = _ => "field" };
    private static readonly Option<bool> Remove = new("--remove") { Description = "Shut the person out, also on devices that are signed in." };

    static DataCommands() => Role.AcceptOnlyFromAmong("office", "field");

    public static IEnumerable<Command> All(Host host) =>
    [
        Make(host, "backup", "Copies the whole data folder's content into one file, also while serving.", BackUp, Data, Out),
        Make(host, "restore", "Puts a backup in place of the data folder's content, which is kept. The server must not be running.", Restore, BackupFile, Data),
        Make(host, "export", "Writes all layouts, surveys, journals, photos and findings as files.", Export, Data, Folder),
        Make(host, "person", "Adds someone who may sign in, or gives a new passphrase, read from standard input.", SetPerson, Name, Role, Remove, Data),
    ];

    private static Command Make(Host host, string name, string what, Action<Session, ParseResult> run, params Symbol[] symbols)
    {
        var command = new Command(name, what);
        foreach (var symbol in symbols)
        {
            if (symbol is Option option) command.Add(option);
            else command.Add((Argument)symbol);
        }

        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => run(session, parse), cancel)));
        return command;
    }

    private static void BackUp(Session session, ParseResult parse)
    {
        var file = Path.GetFullPath(parse.GetValue(Out)!);
        var database = Refusing.Existing(parse.GetValue(Data)!);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        database.BackUp(file);
        session.Document(() => new JsonObject { ["backup"] = file });
        session.Say($"Wrote {file}");
    }

    private static void Restore(Session session, ParseResult parse)
    {
        var kept = Refusing.Newer(() => Backups.Restore(parse.GetValue(BackupFile)!, parse.GetValue(Data)!, TimeProvider.System) ?? "");
        session.Document(() => new JsonObject { ["kept"] = kept.Length > 0 ? kept : null });
        session.Say("Restored." + (kept.Length > 0 ? $" What was there is kept in {kept}." : ""));
    }

    private static void Export(Session session, ParseResult parse)
    {
        var database = Refusing.Existing(parse.GetValue(Data)!);
        var files = new OutputFiles();
        foreach (var (name, content) in DataExport.Files(new Layouts(database, TimeProvider.System), new Journal(database, TimeProvider.System), new Photos(database, TimeProvider.System), new Findings(database, TimeProvider.System)))
            files.Add(Path.Combine(parse.GetValue(Folder)!, name), content);
        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject { ["files"] = new JsonArray([.. written.Select(w => (JsonNode)w)]) });
        foreach (var file in written) session.Say($"Wrote {file}");
    }

    private static void SetPerson(Session session, ParseResult parse)
    {
        var name = parse.GetValue(Name)!;
        var people = new People(Refusing.Newer(() => StoreDatabase.Open(parse.GetValue(Data)!, TimeProvider.System)), TimeProvider.System);
        if (parse.GetValue(Remove))
        {
            if (!people.Remove(name)) throw Refusing.Refused(name, "person", $"There is no {name}.");
            session.Say($"{name} can no longer sign in.");
            return;
        }

        if (!People.IsName(name)) throw Refusing.Refused(name, "person", "A name has 1 to 64 characters.");
        session.Note($"Passphrase of {name}, at least {People.FewestCharacters} characters:");
        var passphrase = session.In.ReadLine() ?? "";
        if (passphrase.Length < People.FewestCharacters) throw Refusing.Refused(name, "passphrase", $"A passphrase has at least {People.FewestCharacters} characters; a few words do well.");
        people.Set(name, parse.GetValue(Role)!, passphrase);
        session.Say($"{name} may sign in.");
    }
}
