using Clackbeat.Frame;
using Clackbeat.Words;

namespace Clackbeat.Commands;

/// <summary>licences: the program's own licence, and the licences and notices of what it is made with.</summary>
internal static class LicencesCommand
{
    /// <summary>Written beside the program when a package is made.</summary>
    public const string Notices = "THIRD-PARTY-NOTICES.txt";

    public static ExampleCommand Create(Session session)
    {
        var command = new ExampleCommand("licences", "Print the program's licence, and those of what it is made with", "licences");
        command.Aliases.Add("licenses");
        command.SetAction(_ =>
        {
            using Stream own = typeof(LicencesCommand).Assembly.GetManifestResourceStream("LICENSE")!;
            using var reader = new StreamReader(own);
            session.Out.WriteLine(reader.ReadToEnd());
            string notices = Path.Combine(AppContext.BaseDirectory, Notices);
            if (File.Exists(notices))
            {
                session.Out.WriteLine(File.ReadAllText(notices));
            }
            else
            {
                session.Say(Phrases.Say("licences.only-in-packages", ("command", "dotnet run .ci/audit.cs")));
            }

            return ExitCode.Done;
        });
        return command;
    }
}
