using Clackbeat.Frame;
using Clackbeat.Recording.Files;
using Clackbeat.Records.Sharing;
using Clackbeat.Records.Sources;
using Clackbeat.Records.Tables;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>How a record's file is to be read.</summary>
/// <param name="Columns">Which columns to read of a table.</param>
/// <param name="IsAbsolute">Its pressures count from vacuum, whatever the file says.</param>
/// <param name="IsDatedByName">Where a table names no dates, its name or the remarks above it may tell when it began.</param>
internal sealed record RecordReading(TraceColumns Columns, bool IsAbsolute = false, bool IsDatedByName = false)
{
    /// <summary>As the file itself says.</summary>
    public static RecordReading Default { get; } = new(TraceColumns.Default);
}

/// <summary>Opens a record's file, told by what is in it and not by its name.</summary>
internal static class RecordFile
{
    /// <summary>Opens a record.</summary>
    /// <param name="session">Tells how far a first pass is, and what the user should know.</param>
    /// <param name="path">The file.</param>
    /// <param name="reading">How to read it.</param>
    /// <param name="site">The ram; turns a recording's counts into pressure, and says how high it stands.</param>
    public static ISampleSource Open(Session session, string path, RecordReading reading, RamSite site)
    {
        if (BlockReader.IsRecording(path))
        {
            ISampleSource recording = session.WithProgress(
                $"Checking {Path.GetFileName(path)}", progress => RecordingSource.Open(path, site, progress, session.Stop));
            return reading.IsAbsolute && !site.Sensor.IsAbsolute ? new GaugeSource(recording, site.AtmospherePa) : recording;
        }

        if (SharedRecord.Is(path))
        {
            if (reading.IsAbsolute)
            {
                session.Warn(Phrases.Say("record-read.absolute-ignored", ("file", path)));
            }

            return SharedRecord.Open(path);
        }

        var table = TableSource.Open(path, reading.Columns, reading.IsDatedByName ? TimeZoneInfo.Local : null);
        foreach (Fact remark in table.Remarks)
        {
            session.Warn(Phrases.Say("wrote.file-warning", ("file", path), ("what", remark)));
        }

        if (reading.IsAbsolute && table.IsAbsolute == false)
        {
            session.Warn(Phrases.Say("record-read.header-gauge", ("file", path)));
        }

        // What the user says goes before the header, and the header before the site file, which may speak of another sensor.
        bool absolute = reading.IsAbsolute || (table.IsAbsolute ?? site.Sensor.IsAbsolute);
        return absolute ? new GaugeSource(table, site.AtmospherePa) : table;
    }
}
