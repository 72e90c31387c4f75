using System.Globalization;
using System.Text;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;
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

    /// <summary>Writes the guide and its pictures into the documentation folder.</summary>
    public static void Write(string docs)
    {
        string images = Path.Combine(docs, "images", "signs");
        Directory.CreateDirectory(images);
        RamAnalysis well = Analyse(Fault.None, null);
        var page = new StringBuilder();
        page.Append("""
            # Field guide: what a sick ram's beat looks like
            Drawn by the program itself (`dotnet run -c Release --project tests/Clackbeat.DiagnosisStudy -- guide`) from a virtual ram: 16 m of 2-inch steel pipe,
            3.2 m of supply head, lifting to 24 m. Blue is the beat with the fault, half as bad as it gets; the dashed line is the same
            ram when it was well; the shaded stretch is where to look. Real rams differ in detail: compare with your own
            ram's recording from when it was well.

            **Before you open anything:** shut the gate valve in the drive pipe, hold the waste valve open until the drive pipe has drained its
            pressure, and shut off and let down the delivery side too: the air vessel keeps its pressure long after the ram
            has stopped. Keep fingers and face clear of the waste valve. Where people drink the water, clean hands and parts fit for
            drinking water. What the ram's maker says, and local rules, come before this guide.


            """);
        foreach (RamCondition condition in Enum.GetValues<RamCondition>().Where(c => c != RamCondition.Healthy))
        {
            Entry(page, condition, well, images);
        }

        page.Append("""
            ## Silent rams at a glance
            | the body reads | water at the waste valve | then |
            | --- | --- | --- |
            | the full supply head, steadily | none | stopped shut |
            | well under the supply head | runs | stopped open |
            | nothing | none | no water: empty supply, shut gate valve, empty drive pipe |
            | nothing, or one value that never flickers | runs or beats | the sensor is dead |

            """);
        File.WriteAllText(Path.Combine(docs, "field-guide.md"), page.ToString());
    }

    private static void Entry(StringBuilder page, RamCondition condition, RamAnalysis well, string images)
    {
        string code = condition.Code();
        ConditionText text = ConditionText.Of(code);
        var fault = new Fault { Condition = condition, Severity = Severity, SensorFault = SensorFaultKind.AirInTap };
        RamAnalysis ill = Analyse(fault, well.Signature);
        Finding? found = ill.Diagnosis.FirstOrDefault(f => f.Condition == code);
        IReadOnlyList<BeatPart> parts = found?.Parts is { Count: > 0 } told ? told : [text.Where];
        bool stopped = condition is RamCondition.StoppedShut or RamCondition.StoppedOpen;
        using Plot plot = stopped || ill.Signature is null
            ? Trace(ill)
            : SignaturePlot.Draw(ill.Signature, well.Signature, parts, Frame.Wide);
        plot.FigureBackground.Color = Colors.White;
        plot.SaveSvg(Path.Combine(images, code + ".svg"), Frame.Wide.Width, Frame.Wide.Height);
        page.Append(CultureInfo.InvariantCulture, $"## {char.ToUpperInvariant(text.Name[0])}{text.Name[1..]}\n`{code}`\n\n![{text.Name}: the beat beside that of a well ram](images/signs/{code}.svg)\n\n");
        foreach (string reason in found?.Evidence ?? [])
        {
            page.Append(CultureInfo.InvariantCulture, $"- {reason}\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"\n{text.Advice}\n\n");
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
