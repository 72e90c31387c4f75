using System.Globalization;
using System.Text;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.DiagnosisStudy.Papers;

/// <summary>Writes the field guide: each condition drawn by a virtual ram of our own invention, and the advice the program gives.</summary>
public static class FieldGuide
{
    private const double LengthS = 40;
    private const double Severity = 0.5;

    private static readonly RamSite Site = new()
    {
        Name = "the ram at Heron Weir",
        Supply = new Supply { HeadM = 3.2, WaterTemperatureC = 10 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.GalvanisedSteel, LengthM = 16, BoreM = 0.0525, WallM = 0.0039 },
        Delivery = new Delivery { HeadM = 24 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    private const string WhereToLook = """
        ## It does this – look there
        | what you see or hear | look first at | then |
        | --- | --- | --- |
        | some beats are much longer than others | [the waste valve](#the-waste-valve-sticks): grit, guide, stem | the level at the intake |
        | it beats evenly and delivers less than it did | [the delivery valve](#the-delivery-valve-leaks): the test with gate and waste valve shut | walk the delivery main: a burst or a leak shows the same at the ram |
        | water dribbles from the waste valve while it is shut | [its seat and rubber](#the-waste-valve-leaks-while-shut) | grit under the seat |
        | slower beats and a weaker knock | [the intake](#too-little-water-reaches-the-drive-pipe): level, strainer, gate | a rusted or silted drive pipe |
        | a dull knock, a soft pipe | [air in the drive pipe](#there-is-air-in-the-drive-pipe) | joints, a vortex at the intake |
        | the main jerks, the gauge swings with each beat | [the air vessel](#the-air-vessel-has-lost-its-air) | the snifter |
        | a hard knock, high pressure, little water | [the delivery main](#something-holds-back-the-delivered-water): a valve half shut, frozen or silted | air locked at a high point |
        | a second thud after each knock | [the delivery valve](#the-delivery-valve-shuts-late-and-water-runs-back): spring and guide | |
        | it stands still | [the table at the end](#stopped-rams-at-a-glance) | |


        """;

    /// <summary>Writes the guide and its pictures into the documentation folder.</summary>
    public static void Write(string docs)
    {
        string images = Path.Combine(docs, "images", "signatures");
        Directory.CreateDirectory(images);
        RamAnalysis well = Analyse(Fault.None, null);
        var page = new StringBuilder();
        page.Append("""
            # Field guide: what the beat of a faulty ram looks like
            The pictures show a virtual ram: 16 m of 2-inch steel pipe, 3.2 m of supply head, lifting to 24 m. The blue line is the beat with the
            fault at half its worst. The dashed line is the same ram when it was well. The shaded part is where to look. Real rams differ in detail.
            Compare with a recording of your own ram from when it was well.

            The program draws this page itself: `dotnet run -c Release --project tests/Clackbeat.DiagnosisStudy -- guide`.

            **Before you open anything:**
            1. Shut the gate valve in the drive pipe.
            2. Hold the waste valve open until the drive pipe has lost its pressure.
            3. Shut the valve of the delivery main, and let the pressure off the air vessel. It keeps its pressure long after the ram has stopped.

            Keep fingers and face clear of the waste valve. Where people drink the water, use clean hands and parts fit for drinking water. The
            maker's instructions and local rules take precedence over this guide.


            """);
        page.Append(WhereToLook);
        foreach (RamCondition condition in Enum.GetValues<RamCondition>().Where(c => c != RamCondition.Healthy))
        {
            Entry(page, condition, well, images);
        }

        page.Append("""
            ## Stopped rams at a glance
            | the body reads | water at the waste valve | then |
            | --- | --- | --- |
            | the full supply head, steadily | none | stopped shut |
            | well under the supply head | runs | stopped open |
            | nothing | none | no water: empty supply, shut gate valve, empty drive pipe |
            | nothing, or one value that never changes | runs or beats | the sensor is dead |

            """);
        File.WriteAllText(Path.Combine(docs, "field-guide.md"), page.ToString());
    }

    private static void Entry(StringBuilder page, RamCondition condition, RamAnalysis well, string images)
    {
        string code = condition.Code();
        string name = Catalogue.English.Condition(code);
        var fault = new Fault { Condition = condition, Severity = Severity, SensorFault = SensorFaultKind.AirInTap };
        RamAnalysis ill = Analyse(fault, well.Signature);
        Finding? found = ill.Diagnosis.FirstOrDefault(f => f.Condition == code);
        IReadOnlyList<BeatPart> parts = found?.Parts is { Count: > 0 } told ? told : [ConditionTraits.Of(code).Where];
        bool stopped = condition is RamCondition.StoppedShut or RamCondition.StoppedOpen;
        using Plot plot = stopped || ill.Signature is null
            ? Trace(ill)
            : SignaturePlot.Draw(ill.Signature, well.Signature, parts, Frame.Wide);
        plot.FigureBackground.Color = Colors.White;
        plot.SaveSvg(Path.Combine(images, code + ".svg"), Frame.Wide.Width, Frame.Wide.Height);
        page.Append(CultureInfo.InvariantCulture, $"## {char.ToUpperInvariant(name[0])}{name[1..]}\n`{code}`\n\n![{name}: the beat beside that of a well ram](images/signatures/{code}.svg)\n\n");
        foreach (string reason in Catalogue.English.Say(found?.Evidence ?? []))
        {
            page.Append(CultureInfo.InvariantCulture, $"- {reason}\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"\n{Catalogue.English.Say(ConditionTraits.Advice(code))}\n\n");
    }

    private static RamAnalysis Analyse(Fault fault, Signature? well)
    {
        RamDesign design = RamDesigner.Design(Site);
        var ram = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { Fault = fault, Seed = fault == Fault.None ? 1 : 2 });
        VirtualSample[] samples = [.. ram.Samples(LengthS)];
        var analyser = new RamAnalyser(Site, well);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("field guide");
    }

    /// <summary>The record's first twenty seconds: a stop has no typical beat.</summary>
    private static Plot Trace(RamAnalysis analysis)
    {
        const double ShownS = 20;
        const double Bar = 1e-5;
        Envelope whole = analysis.Picture.Whole;
        var sheet = new Sheet(Frame.Wide);
        int count = Math.Min(whole.LowPa.Count, (int)(ShownS / whole.StepS));
        double[] times = [.. Enumerable.Range(0, count).Select(i => whole.StartS + (i * whole.StepS))];
        double top = 1.4 * analysis.Pressure.StaticPa.GetValueOrDefault(3e4) * Bar;
        sheet.PressureAxis(-0.3 * top, top);
        sheet.TimeAxis(0, ShownS, "Time");
        sheet.Level(analysis.Pressure.StaticPa.GetValueOrDefault() * Bar, "supply head", Ink.Green, LinePattern.Dashed, ShownS);
        sheet.Band(times, [.. whole.LowPa.Take(count).Select(p => p * Bar)], [.. whole.HighPa.Take(count).Select(p => p * Bar)], Ink.Blue, 1);
        return sheet.Plot;
    }
}
