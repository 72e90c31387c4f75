using System.Globalization;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Report.Tests;

public sealed class BeatCsvSpecs
{
    [Fact]
    public void The_columns_are_those_of_the_contract() =>
        Assert.Equal("beat,closure_s,interval_s,peak_kpa,delivery_kpa,suction_kpa,closing_velocity_m_per_s,delivered_l,waste_l", Rows([])[0]);

    [Fact]
    public void A_beat_is_written_in_seconds_kilopascals_and_litres()
    {
        Beat beat = MadeUpRam.Trace(1).Beats[0] with
        {
            Index = 4,
            ClosureS = 3605.1234564,
            NextClosureS = 3606.5,
            PeakPa = 350_975,
            DeliveryPa = 207_714,
            SuctionPa = -97_978,
            Flow = new BeatFlow(1.4241, 0.00015106, 0.0017979),
        };
        Assert.Equal("4,3605.123456,1.376544,350.975,207.714,-97.978,1.4241,0.15106,1.7979", Rows([beat])[1]);
    }

    [Fact]
    public void Withheld_flows_leave_their_cells_empty()
    {
        string row = Rows([MadeUpRam.Trace(1).Beats[0] with { Flow = null }])[1];
        Assert.EndsWith(",,,", row, StringComparison.Ordinal);
        Assert.Equal(8, row.Count(c => c == ','));
    }

    [Fact]
    public void Rows_read_the_same_in_a_country_with_decimal_commas()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        string[] plain = Rows(MadeUpRam.Trace(3).Beats);
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(plain, Rows(MadeUpRam.Trace(3).Beats));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static string[] Rows(IEnumerable<Beat> beats)
    {
        using var text = new StringWriter();
        BeatCsv.Write(text, beats);
        return text.ToString().TrimEnd('\n').Split('\n');
    }
}
