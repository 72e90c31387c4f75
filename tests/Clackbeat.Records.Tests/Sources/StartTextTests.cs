using System.Globalization;
using Clackbeat.Records.Sources;
using Clackbeat.Records.Tables;
using Clackbeat.Testing;

namespace Clackbeat.Records.Tests.Sources;

/// <summary>When a file began, by its name and by the remarks in it. Instants were worked out by hand from the zone's rule: an hour ahead of UTC, two in summer.</summary>
public class StartTextTests
{
    // Central Europe: summer time from the last Sunday of March, 02:00, to the last of October, 03:00.
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.CreateCustomTimeZone("test", TimeSpan.FromHours(1), "test", "test", "test summer",
    [
        TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(
            DateTime.MinValue.Date, DateTime.MaxValue.Date, TimeSpan.FromHours(1),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 2, 0, 0), 3, 5, DayOfWeek.Sunday),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 3, 0, 0), 10, 5, DayOfWeek.Sunday)),
    ]);

    [Theory]
    [InlineData("2026-03-14T0600.csv", "2026-03-14T05:00:00Z", 60)]
    [InlineData("20260314-060000.csv", "2026-03-14T05:00:00Z", 1)]
    [InlineData("mill_20260314_060000_run2.csv", "2026-03-14T05:00:00Z", 1)]
    [InlineData("mill 2026-03-14 06.00.30.csv", "2026-03-14T05:00:30Z", 1)]
    [InlineData("2026-07-14_06-00-30.csv", "2026-07-14T04:00:30Z", 1)]
    [InlineData("20260314T060000Z.csv", "2026-03-14T06:00:00Z", 1)]
    [InlineData("2026-03-14T060000+0530.csv", "2026-03-14T00:30:00Z", 1)]
    [InlineData("2026-03-14T06h00.csv", "2026-03-14T05:00:00Z", 60)]
    [InlineData("2026-10-25T0230.csv", "2026-10-25T01:30:00Z", 3660)]
    public void A_name_tells_the_start(string name, string utc, double uncertaintyS)
    {
        (RecordStart Start, Site.Facts.Fact Remark) found = StartText.InName($"/somewhere/2025-01-01T0000/{name}", Zone)!.Value;
        Assert.Equal(new RecordStart(DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture), uncertaintyS), found.Start);
        Assert.Equal("table.start-in-name", found.Remark.Code);
    }

    [Theory]
    [InlineData("2026-03-14.csv")]
    [InlineData("20260314.csv")]
    [InlineData("2026-13-14T0600.csv")]
    [InlineData("2026-02-30T0600.csv")]
    [InlineData("2026-03-14T2560.csv")]
    [InlineData("2026-03-29T0230.csv")]
    [InlineData("2026-03-14T0600 to 2026-03-14T0700.csv")]
    [InlineData("mill-1234567890123456.csv")]
    [InlineData("run7.csv")]
    public void A_name_that_tells_none_or_two_is_not_guessed_at(string name) => Assert.Null(StartText.InName(name, Zone));

    [Fact]
    public void A_remark_counts_where_it_speaks_of_a_start_and_not_of_anything_else()
    {
        string[] remarks = ["# exported 2026-03-20 10:00:00", "# Recording started: 2026-03-14 06:00:00", "# sensor 7"];
        Assert.Equal(new DateTimeOffset(2026, 3, 14, 5, 0, 0, TimeSpan.Zero), StartText.InRemarks(remarks, Zone)!.Value.Start.Utc);
        Assert.Null(StartText.InRemarks(remarks[..1], Zone));
    }

    /// <summary>Dates in the table itself go before its remarks, and these before its name.</summary>
    [Fact]
    public void The_nearest_to_the_samples_counts()
    {
        using var folder = new TemporaryFolder();
        string path = folder["20260101-000000.csv"];
        RecordStart? Start(string text)
        {
            File.WriteAllText(path, text);
            var table = TableSource.Open(path, TraceColumns.Default, Zone);
            table.Read(_ => { });
            return table.Start;
        }

        Assert.Equal(new DateTimeOffset(2025, 12, 31, 23, 0, 0, TimeSpan.Zero), Start("t_s,p_kPa\n0,1\n1,2\n")!.Value.Utc);
        Assert.Equal(new DateTimeOffset(2026, 3, 14, 5, 0, 0, TimeSpan.Zero), Start("# start 2026-03-14 06:00:00\nt_s,p_kPa\n0,1\n1,2\n")!.Value.Utc);
        RecordStart own = Start("# start 2026-03-14 06:00:00\ntime,p_kPa\n2026-05-01T00:00:00Z,1\n2026-05-01T00:00:01Z,2\n")!.Value;
        Assert.Equal(new DateTimeOffset(2026, 5, 1, 0, 0, 0, TimeSpan.Zero), own.Utc);
    }
}
