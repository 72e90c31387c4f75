using Clackbeat.DiagnosisStudy.Records;
using Clackbeat.Twin.Changes;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>What a ram really does; flows [m³/s].</summary>
/// <param name="RatePerMin">Beats a minute; 0 for a ram that comes to a stop.</param>
/// <param name="Delivered">Delivered.</param>
/// <param name="Waste">To waste.</param>
internal readonly record struct TrueFlows(double RatePerMin, double Delivered, double Waste);

/// <summary>A drawn ram with its record and what it really does, before and after each change.</summary>
/// <param name="Domain">Where it was drawn from.</param>
/// <param name="Ram">The ram.</param>
internal sealed record TwinCase(TwinDomain Domain, FieldRam Ram)
{
    private const double RecordS = 60;
    private const double TruthS = 40;

    /// <summary>The changes asked for, by name.</summary>
    public IEnumerable<(string Name, RamChange Change)> Changes =>
    [
        ("stroke -25 %", new RamChange { Stroke = 0.75 }),
        ("weight +25 %", new RamChange { Weight = 1.25 }),
        ("lift +20 %", new RamChange { DeliveryHeadM = 0.2 * Ram.Built.Delivery.HeadM }),
        ("supply -15 %", new RamChange { SupplyHeadM = -0.15 * Ram.Built.Supply.HeadM }),
    ];

    /// <summary>The drawn ram with a share of the loss in the gap that is its own: nobody knows it, and the designer gives all the same.</summary>
    /// <param name="domain">Where it is drawn from.</param>
    /// <param name="ram">The ram.</param>
    public static TwinCase Of(TwinDomain domain, FieldRam ram)
    {
        double gap = new Dice(FieldRam.SeedOf(ram.Set, ram.Number) + 5_000_000).Between(0.5, 0.9);
        ValveParameters valve = ram.Ram.WasteValve;
        double open = valve.OpenAreaM2(valve.TravelM);
        return new TwinCase(domain, valve.Floats
            ? ram
            : ram with
            {
                Ram = ram.Ram with
                {
                    WasteValve = valve with { GapWidthM = open / Math.Sqrt(gap) / valve.TravelM, PassageAreaM2 = open / Math.Sqrt(1 - gap) },
                },
            });
    }

    private int Seed => FieldRam.SeedOf(Ram.Set, Ram.Number);

    /// <summary>The record, made once and kept in a folder; null where the ram doesn't beat to its end.</summary>
    /// <param name="folder">The folder.</param>
    public (double[] TimesS, double[] PressuresPa)? Record(string folder)
    {
        string path = Path.Combine(folder, FormattableString.Invariant($"{Domain}-{Ram.Set}-{Ram.Number:00000}.bin"));
        if (!File.Exists(path))
        {
            RamSimulation simulation = Simulation(Ram.Ram);
            List<VirtualSample> samples = [.. simulation.Samples(RecordS)];
            bool beats = Beats(simulation.Totals, RecordS);
            RecordFile.Write(path, beats ? [.. samples.Select(s => s.TimeS)] : [], beats ? [.. samples.Select(s => s.PressurePa)] : []);
        }

        (double[] TimesS, double[] PressuresPa) record = RecordFile.Read(path);
        return record.TimesS.Length > 0 ? record : null;
    }

    /// <summary>A minute's record after a change, its noise drawn anew.</summary>
    /// <param name="change">The change.</param>
    /// <param name="again">Which drawing of the noise.</param>
    public (double[] TimesS, double[] PressuresPa) Trial(RamChange change, int again)
    {
        List<VirtualSample> samples = [.. Simulation(change.Ram(Ram.Ram, Ram.Built), again).Samples(RecordS)];
        return ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
    }

    /// <summary>What the ram really does after a change, worked out once and kept in a folder.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">Name of the change; empty for none.</param>
    /// <param name="change">The change.</param>
    public TrueFlows Truth(string folder, string name, RamChange change)
    {
        string path = Path.Combine(folder, FormattableString.Invariant($"{Domain}-{Ram.Set}-{Ram.Number:00000}-{name.Replace(' ', '_').Replace("%", "", StringComparison.Ordinal)}.truth"));
        if (!File.Exists(path))
        {
            RamSimulation simulation = Simulation(change.Ram(Ram.Ram, Ram.Built));
            foreach (VirtualSample _ in simulation.Samples(TruthS))
            {
            }

            RamTotals t = simulation.Totals;
            double perS = 1 / Math.Max(1e-9, t.DurationS);
            File.WriteAllText(path, Beats(t, TruthS) ? FormattableString.Invariant($"{t.BeatsPerMin:R};{t.DeliveredM3 * perS:R};{t.WasteM3 * perS:R}") : "0;0;0");
        }

        double[] read = [.. File.ReadAllText(path).Split(';').Select(s => double.Parse(s, System.Globalization.CultureInfo.InvariantCulture))];
        return new TrueFlows(read[0], read[1], read[2]);
    }

    // A keeper pushes the valve at the start; what counts is that it then goes on to the end.
    private static bool Beats(RamTotals totals, double lengthS) =>
        totals.Beats >= 6 && totals.DurationS > lengthS - (4 * totals.DurationS / totals.Beats);

    private RamSimulation Simulation(RamParameters ram, int again = 0) => new(ram, Ram.Sensor, new SimulationOptions { Seed = Seed + again, WarmUpS = 25 });
}
