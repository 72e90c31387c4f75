using System.CommandLine;
using System.Text;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Twins;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Files;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Inside;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary>The files that <c>what-if</c> writes besides its answer.</summary>
internal sealed class WhatIfOutput
{
    private readonly Option<string?> _page = new("--out")
    {
        Description = "Page with the figures, the curve of a range and the beat beside its twin (.html, .pdf), or the first picture alone (.svg)",
        HelpName = "FILE",
    };

    private readonly Option<string?> _slow = new("--slow-motion")
    {
        Description = "The beat in slow motion as one page that plays offline",
        HelpName = "FILE.html",
    };

    private readonly Option<string?> _save = new("--save")
    {
        Description = "The twin as a file, for 'clackbeat simulate --twin'",
        HelpName = "FILE.json",
    };

    private readonly Option<bool> _overwrite = CommonOptions.Overwrite();

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _page, _slow, _save, _overwrite })
        {
            command.Add(option);
        }
    }

    /// <summary>Claims the names before the work starts.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="changes">Something is changed.</param>
    /// <exception cref="InputException">A name is taken or of the wrong ending, or nothing was asked for.</exception>
    public OutputFiles Claim(ParseResult line, bool changes)
    {
        (string? page, string? slow, string? save) = (line.GetValue(_page), line.GetValue(_slow), line.GetValue(_save));
        if (!changes && ((slow ?? save) is null || page is not null))
        {
            throw InputException.Of("whatif.nothing-asked");
        }

        bool isSvg = page is not null && Path.GetExtension(page).Equals(".svg", StringComparison.OrdinalIgnoreCase);
        ReportFormat? format = page is null || isSvg ? null : ReportFormats.FromPath(page);
        if (slow is not null && ReportFormats.FromPath(slow) != ReportFormat.Html)
        {
            throw InputException.Of("whatif.slow-html", ("file", slow));
        }

        bool overwrite = line.GetValue(_overwrite);
        OutputFile? Open(string? path) => path is null ? null : OutputFile.Create(path, overwrite);
        return new OutputFiles(Open(page), format, Open(slow), Open(save));
    }
}

/// <summary>Files whose names are claimed.</summary>
/// <param name="page">The page or picture.</param>
/// <param name="format">How the page is set; null for a picture.</param>
/// <param name="slow">The beat in slow motion.</param>
/// <param name="save">The saved twin.</param>
internal sealed class OutputFiles(OutputFile? page, ReportFormat? format, OutputFile? slow, OutputFile? save) : IDisposable
{
    /// <summary>Writes them all.</summary>
    public void Write(Session session, RamSite site, string record, FittedTwin twin, WhatIfAnswer? answer, bool isRange)
    {
        if (page is not null && answer is not null)
        {
            WhatIfStory story = Story(site, record, twin, answer, isRange);
            if (format is { } set)
            {
                WhatIfPage.Write(page.Stream, set, story);
            }
            else
            {
                page.Stream.Write(Encoding.UTF8.GetBytes(WhatIfPage.Svg(story)));
            }

            Commit(session, page);
        }

        if (slow is not null)
        {
            InsideBeat beat = InsideRun.Of(twin) ?? throw InputException.Of("whatif.no-fit", ("file", record));
            SlowMotionPage.Write(slow.Stream, site, record, beat, twin.Fits);
            Commit(session, slow);
        }

        if (save is not null)
        {
            save.Stream.Write(Encoding.UTF8.GetBytes(TwinFile.Text(twin, record, DateTimeOffset.Now)));
            Commit(session, save);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        page?.Dispose();
        slow?.Dispose();
        save?.Dispose();
    }

    private static WhatIfStory Story(RamSite site, string record, FittedTwin twin, WhatIfAnswer answer, bool isRange) => new(
        site, record, twin, answer.AsIs,
        [.. answer.Changed.Select(c => new TriedChange(c.Step.Setting, c.Step.At, c.Ram, c.Pipe.PressureVerdict))],
        isRange ? new SettingAxis(answer.Changed[0].Step.Unit, answer.Changed[0].Step.Now) : null, [.. WhatIfText.Notes(answer)], DateTimeOffset.Now)
    {
        Beat = answer.Beat,
        PipeAsIs = answer.PipeAsIs.PressureVerdict,
    };

    private static void Commit(Session session, OutputFile file)
    {
        file.Commit();
        session.Say(Phrases.Say("wrote.file", ("file", Path.GetFileName(file.Path))));
    }
}
