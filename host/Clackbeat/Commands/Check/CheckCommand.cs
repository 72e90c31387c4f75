using System.CommandLine;
using Clackbeat.Frame;

namespace Clackbeat.Commands.Check;

/// <summary><c>check</c>: the tests by hand that decide what one record can't.</summary>
internal static class CheckCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var check = new Command("check", "Tests by hand: which one decides, how to do it safely, and what its recording shows");
        check.Add(CheckRunCommand.Create(session));
        check.Add(CheckPlanCommand.Create(session));
        foreach (Command command in CheckReadingCommands.All(session))
        {
            check.Add(command);
        }

        return check;
    }
}
