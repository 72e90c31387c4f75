using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Rate;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Fitting;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary><c>what-if</c>: the twin of a recorded ram, and what a change would do to it.</summary>
internal static class WhatIfCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        Option<string?> site = RecordSite.Option();
        var changes = new ChangeOptions();
        Option<bool> json = CommonOptions.Json();
        var output = new WhatIfOutput();
        var command = new ExampleCommand(
            "what-if",
            "Fit a virtual ram to a record and tell what a change would do: water, knock, and whether it still beats",
            "what-if monday.csv --site my-ram.toml --stroke \"-25 %\"",
            "what-if monday.csv --site my-ram.toml --stroke \"-30 % to +30 %\" --out stroke.html",
            "what-if monday.csv --site my-ram.toml --drive-pipe \"length 18 m, material PE100, wall 5.8 mm\" --json",
            "what-if monday.csv --site my-ram.toml --air full",
            "what-if monday.csv --site my-ram.toml --slow-motion beat.html");
        input.AddTo(command);
        changes.AddTo(command);
        command.Add(site);
        command.Add(json);
        output.AddTo(command);
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            string? path = line.GetRequiredValue(input.Input);
            RamSite ram = RecordSite.Of(line.GetValue(site), path);
            IReadOnlyList<ChangeStep> steps = changes.Read(line, ram, out bool isRange);
            using OutputFiles files = output.Claim(line, steps.Count > 0);
            (RamAnalysis analysis, RamAnalysis? baseline) = input.Analyse(session, line, ram, line.GetValue(site));
            FittedTwin twin = session.WithProgress(Phrases.Say("whatif.fitting"), _ => FittedTwin.Of(ram, analysis, session.Stop))
                ?? throw InputException.Of("whatif.no-fit", ("file", path));
            WhatIfAnswer? answer = steps.Count > 0
                ? WhatIfAnswer.Of(ram, analysis, twin, steps) with { Moved = TwinAdvice.Moved(session, ram, twin, baseline) }
                : null;
            if (answer is not null)
            {
                Write(session, line.GetValue(json), isRange, answer);
            }

            files.Write(session, ram, Path.GetFileName(path), twin, answer, isRange);
            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }

    private static void Write(Session session, bool json, bool isRange, WhatIfAnswer answer)
    {
        if (json)
        {
            JsonOut.Write(session, isRange ? WhatIfJson.Curve(answer) : WhatIfJson.Of(answer));
        }
        else if (isRange)
        {
            WhatIfText.WriteCurve(session, answer);
        }
        else
        {
            WhatIfText.Write(session, answer);
        }
    }
}
