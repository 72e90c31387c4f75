using System.CommandLine;
using Clackbeat.Commands.Capture;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>Folders of a lone logger's bursts as inputs of log: what collect wrote, or a card.</summary>
internal sealed class LogFolders(Session session, RamSite ram, LogOptions options, ParseResult line) : IDisposable
{
    private readonly List<BurstFolder> _open = [];

    /// <summary>Something in a folder could not be taken.</summary>
    public bool IsPartial { get; private set; }

    /// <summary>The bursts of a folder.</summary>
    public IEnumerable<SeasonInput> Open(string path)
    {
        if (line.GetValue(options.Start) is not null)
        {
            throw InputException.Of("logging.start-of-folder", ("folder", path));
        }

        SwitchedOn? started = StartedOption.Read(line.GetValue(options.Started));
        BurstFolder folder = session.WithProgress(
            Phrases.Say("logging.looking", ("folder", path)), _ => BurstFolder.Open(path, ram, started, ProgramVersion.Number, TimeProvider.System, session.Stop));
        _open.Add(folder);
        if (folder.Devices.Count > 1)
        {
            throw InputException.Of("logging.several-loggers", ("folder", path), ("loggers", folder.Devices.Count), ("which", string.Join(", ", folder.Devices)));
        }

        foreach (Fact trouble in folder.Troubles)
        {
            session.Warn($"{Catalogue.Current.Say(trouble).TrimEnd('.')}.");
        }

        if (folder.Undated > 0)
        {
            Fact remedy = BurstFolder.IsCard(path) ? Fact.Of("logging.undated-card") : Fact.Of("logging.undated-library");
            var undated = Fact.Of("logging.undated", ("folder", path), ("bursts", folder.Undated), ("remedy", remedy));
            if (folder.Bursts.Count == 0)
            {
                throw new InputException(undated);
            }

            session.Warn(Catalogue.Current.Say(undated));
        }

        IsPartial |= folder.Troubles.Count > 0 || folder.Undated > 0;
        return folder.Bursts.Select(b => new SeasonInput(b.Name, _ => b));
    }

    /// <inheritdoc/>
    public void Dispose() => _open.ForEach(f => f.Dispose());
}
