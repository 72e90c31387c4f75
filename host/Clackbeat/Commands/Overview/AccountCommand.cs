using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Watch.Accounts;
using Clackbeat.Words;

namespace Clackbeat.Commands.Overview;

/// <summary>overview account: who may see the pages from elsewhere, and who may correct. A password is never an argument.</summary>
internal static class AccountCommand
{
    /// <summary>Creates the command with its parts.</summary>
    public static Command Create(Session session)
    {
        var command = new Command("account", "Say who may see the page from elsewhere, and who may correct marks and bursts");
        command.Add(CreateAdd(session));
        command.Add(CreateRemove(session));
        command.Add(CreateList(session));
        return command;
    }

    private static ExampleCommand CreateAdd(Session session)
    {
        Argument<string> name = Name();
        Option<string> file = File();
        var role = new Option<AccountRole>("--role") { Description = "A reader may look; a keeper may also correct", HelpName = "reader|keeper", DefaultValueFactory = _ => AccountRole.Reader };
        var command = new ExampleCommand(
            "add",
            "Add an account, or give one another role and password; the password is asked for, or read as one line from standard input",
            "overview account add Anna --role keeper --accounts accounts.json")
        {
            name, file, role,
        };
        command.SetAction(line =>
        {
            var accounts = new AccountFile(line.GetRequiredValue(file));
            string who = line.GetRequiredValue(name);
            string password = PasswordPrompt.Read(session, who);
            if (password.Length is < Passwords.Shortest or > Passwords.Longest)
            {
                throw InputException.Of("account.short", ("least", Passwords.Shortest), ("most", Passwords.Longest));
            }

            accounts.Set(Passwords.Of(who, line.GetValue(role), password));
            session.Say(Phrases.Say("account.set", ("name", who), ("role", Role(line.GetValue(role)))));
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand CreateRemove(Session session)
    {
        Argument<string> name = Name();
        Option<string> file = File();
        var command = new ExampleCommand(
            "remove", "Take an account out; whoever is signed in with it is out at once", "overview account remove Tom --accounts accounts.json") { name, file };
        command.SetAction(line =>
        {
            new AccountFile(line.GetRequiredValue(file)).Remove(line.GetRequiredValue(name));
            session.Say(Phrases.Say("account.removed", ("name", line.GetRequiredValue(name))));
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand CreateList(Session session)
    {
        Option<string> file = File();
        var command = new ExampleCommand("list", "List the accounts", "overview account list --accounts accounts.json") { file };
        command.SetAction(line =>
        {
            Layout.Table(
                session, [Phrases.Say("account.name"), ""],
                new AccountFile(line.GetRequiredValue(file)).All().Select(a => (IReadOnlyList<string>)[a.Name, Role(a.Role)]));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Role(AccountRole role) => Phrases.Say(role == AccountRole.Keeper ? "account.keeper" : "account.reader");

    private static Argument<string> Name() => new("NAME") { Description = "Name of the account; the journal of corrections keeps it" };

    private static Option<string> File() => new("--accounts") { Description = "File of the accounts", HelpName = "FILE", Required = true };
}
