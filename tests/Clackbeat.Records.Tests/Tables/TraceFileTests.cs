using System.Text;
using Clackbeat.Records.Tables;
using Clackbeat.Site;

namespace Clackbeat.Records.Tests.Tables;

public sealed class TraceFileTests : IDisposable
{
    private readonly string _path = Path.GetTempFileName();

    [Fact]
    public void A_plain_table_comes_out_in_SI()
    {
        (double[] timesS, double[] pressuresPa, long skipped) = Read("t_s,p_kPa\n0,1.5\n0.001,-2\n", TraceColumns.Default);
        Assert.Equal([0, 0.001], timesS);
        Assert.Equal([1500, -2000], pressuresPa);
        Assert.Equal(0, skipped);
    }

    [Fact]
    public void Semicolons_decimal_commas_and_a_byte_order_mark_are_understood()
    {
        (double[] timesS, double[] pressuresPa, _) = Read("\uFEFFt_s;p_kPa\n0,001;12,5\n0,002;-0,5\n", TraceColumns.Default);
        Assert.Equal([0.001, 0.002], timesS);
        Assert.Equal([12500, -500], pressuresPa);
    }

    [Fact]
    public void Thousands_of_remarks_and_a_row_of_units_may_stand_before_the_numbers()
    {
        string remarks = string.Concat(Enumerable.Range(0, 5000).Select(i => $"remark {i}, with, commas\n"));
        (double[] timesS, _, long skipped) = Read($"{remarks}n\tt_s\tp_kPa\n\ts\tkPa\n1\t0\t5\n2\t1\t6\n", TraceColumns.Default);
        Assert.Equal([0, 1], timesS);
        Assert.Equal(0, skipped);
    }

    // 1 cm of water is 98.0665 Pa and 1 psi 6894.757 Pa (NIST SP 811, appendix B).
    [Theory]
    [InlineData("day:day", "head:cm", 86400, 98.0665)]
    [InlineData("day:ms", "head:-psi", 0.001, -6894.757293168)]
    [InlineData("1:s", "2:bar", 1, 1e5)]
    public void Columns_are_named_or_counted_and_carry_their_unit(string time, string pressure, double seconds, double pascals)
    {
        (double[] timesS, double[] pressuresPa, _) = Read("day,head\n1,1\n", TraceColumns.Parse(time, pressure));
        Assert.Equal(seconds, timesS[0], 1e-12);
        Assert.Equal(pascals, pressuresPa[0], 1e-6);
    }

    [Fact]
    public void Rows_without_two_finite_numbers_are_counted_and_left_out()
    {
        (double[] timesS, _, long skipped) = Read(
            "t_s,p_kPa\n0,1\n1,NaN\n2,inf\n3,\nrubbish\n\n4,1\n5,\"2\"\n", TraceColumns.Default);
        Assert.Equal([0, 4, 5], timesS);
        Assert.Equal(4, skipped);
    }

    // A double tells milliseconds apart up to some 10^12 s, and 1e308 days are no finite number of seconds.
    [Fact]
    public void Times_that_no_clock_can_show_are_counted_and_left_out()
    {
        (double[] timesS, double[] pressuresPa, long skipped) = Read(
            "day,head\n0,1\n1e308,1\n-1e15,1\n1,1e308\n1,2\n", TraceColumns.Parse("day:day", "head:bar"));
        Assert.Equal([0, 86400], timesS);
        Assert.Equal([1e5, 2e5], pressuresPa);
        Assert.Equal(3, skipped);
    }

    [Theory]
    [InlineData("")]
    [InlineData("t_s,p_kPa\n0,1\n")]
    public void A_line_without_an_end_is_refused_before_it_fills_the_memory(string before)
    {
        string endless = before + new string('7', 20_000_000);
        InputException refused = Assert.Throws<InputException>(() => Read(endless, TraceColumns.Default));
        Assert.Contains("too long", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("temp_C,flow\n0,1\n", "Columns found: temp_C, flow")]
    [InlineData("time,level\n0,1\n", "--time \"time:s\"")]
    [InlineData("0,1\n1,2\n", "named by their place")]
    [InlineData("PK\0\0\0", "seems to be a file of binary data")]
    public void What_is_no_trace_is_refused_in_words_that_help(string content, string words) =>
        Assert.Contains(words, Assert.Throws<InputException>(() => Read(content, TraceColumns.Default)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_missing_file_an_unknown_unit_and_a_missing_unit_are_named()
    {
        Assert.Throws<InputException>(() => TraceFile.Open(_path + ".none", TraceColumns.Default));
        Assert.Contains("furlong", Refused("t_s", "p_kPa:furlong"), StringComparison.Ordinal);
        Assert.Contains("unit of column 'pressure'", Refused("t_s", "pressure"), StringComparison.Ordinal);
    }

    public void Dispose() => File.Delete(_path);

    private string Refused(string time, string pressure) => Assert.Throws<InputException>(
        () => Read("t_s,p_kPa,pressure\n0,1,1\n", TraceColumns.Parse(time, pressure))).Message;

    private (double[] TimesS, double[] PressuresPa, long Skipped) Read(string content, TraceColumns columns)
    {
        File.WriteAllText(_path, content, new UTF8Encoding(false));
        using var trace = TraceFile.Open(_path, columns);
        double[] timesS = new double[100];
        double[] pressuresPa = new double[100];
        int count = trace.Read(timesS, pressuresPa);
        return (timesS[..count], pressuresPa[..count], trace.SkippedRows);
    }
}
