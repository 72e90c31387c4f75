using System.Reflection;
using Clackbeat.Protocol.Tests;
using Mono.Cecil;
using Xunit.Abstractions;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// What a sample costs, counted on the device build at 1 kHz, one channel, the supply at every 32nd sample, with all
/// chores of a stream and the board's own methods, with frames of either kind. The device figures are inferences from the runtime's sources, not measured on a board:
/// a conversion 100 to 200 µs, and 17 to 30 µs a byte of a table CRC, from which an instruction's time follows.
/// </summary>
public class BudgetTests(ITestOutputHelper output)
{
    private const int Samples = 12_000;
    private const double HalfPeriodUs = 500;

    // Once: a proxy is made for the types of the first that is loaded.
    private static readonly Dictionary<string, Assembly> Build = DeviceBuild.Load(WorkMeter.Meter);

    [Fact]
    public void TheMeanSampleFitsHalfItsPeriodByTheDeviceFigures()
    {
        double perCrcByte = InstructionsPerCrcByte(Build["Clackbeat.Protocol"]);
        List<(long Instructions, long Calls, long Clock, long Conversions)> at = Run(Build["Clackbeat.Logger"], converterMax: 4095);
        (double instructions, double calls, double clock, double conversions) = (
            Mean(at.Select(a => a.Instructions)), Mean(at.Select(a => a.Calls)), Mean(at.Select(a => a.Clock)),
            Mean(at.Select(a => a.Conversions)));
        instructions += (clock * BoardInstructions("NowMicroseconds")) + (conversions * BoardInstructions("ReadConverter"));
        long most = at.Zip(at.Skip(1), (a, b) => b.Instructions - a.Instructions).Order().ElementAt(Samples * 99 / 100);
        double lowUs = (100 * conversions) + (17 / perCrcByte * instructions);
        double middleUs = (150 * conversions) + (23.5 / perCrcByte * instructions);
        double highUs = (200 * conversions) + (30 / perCrcByte * instructions);
        output.WriteLine(
            $"mean: {instructions:F0} instructions, {calls:F1} calls, {clock:F2} clock readings, {conversions:F3} "
            + $"conversions; 99 % below {most} instructions; CRC {perCrcByte:F1} instructions a byte; "
            + $"{lowUs:F0}, {middleUs:F0}, {highUs:F0} us");
        Assert.InRange(conversions, 1, 1.04);
        Assert.True(highUs < HalfPeriodUs, $"{highUs:F0} us by the highest of the device figures");
    }

    // Wide samples take 562 µs on the mean by the highest of the figures: more than half of the period, which is why the pages say to measure.
    // A turn longer than the period makes the next sample late. A mean of half the period hides that, so the worst one counts:
    // its own instructions, two conversions (a reading of the supply is made beside the sample) and its clock readings.
    [Theory]
    [InlineData(4095)]
    [InlineData(65535)]
    public void TheWorstTurnFitsThePeriodByTheDeviceFigures(int converterMax)
    {
        double perCrcByte = InstructionsPerCrcByte(Build["Clackbeat.Protocol"]);
        List<(long Instructions, long Calls, long Clock, long Conversions)> at = Run(Build["Clackbeat.Logger"], converterMax);
        int clock = BoardInstructions("NowMicroseconds");
        int convert = BoardInstructions("ReadConverter");
        var turns = at.Zip(at.Skip(1), (a, b) => (
            Instructions: b.Instructions - a.Instructions + ((b.Clock - a.Clock) * clock) + ((b.Conversions - a.Conversions) * convert),
            Conversions: b.Conversions - a.Conversions)).ToList();
        double highUs = turns.Max(t => (200 * t.Conversions) + (30 / perCrcByte * t.Instructions));
        output.WriteLine(
            $"worst turn {turns.Max(t => t.Instructions)} instructions, two conversions in turns of up to "
            + $"{turns.Where(t => t.Conversions > 1).Max(t => t.Instructions)}; {highUs:F0} us by the highest of the device figures");
        output.WriteLine("longest turns: " + string.Join(", ", turns.Select((t, i) => (t.Instructions, i)).OrderDescending().Take(30)));
        Assert.True(highUs < 1000, $"{highUs:F0} us");
    }

    private static List<(long Instructions, long Calls, long Clock, long Conversions)> Run(Assembly logger, int converterMax)
    {
        object board = BoardProxy.Make(
            logger.GetType("Clackbeat.Logger.Board.ILoggerBoard")!, Samples, Vectors.Named("start-bare").Frame);
        object settings = Activator.CreateInstance(logger.GetType("Clackbeat.Logger.LoggerSettings")!)!;
        settings.GetType().GetProperty("ConverterMax")!.SetValue(settings, converterMax);
        logger.Make("Clackbeat.Logger.Running.LoggerCore", board, settings, null).Run();
        return ((BoardProxy)board).AtSample;
    }

    // The board's two methods on the way of a sample, taken as if every instruction of theirs were carried out.
    private static int BoardInstructions(string method)
    {
        using ModuleDefinition board = DeviceBuild.Open(DeviceBuild.Board);
        return board.GetType("Clackbeat.Logger.Esp32.Esp32Board").Methods.Single(m => m.Name == method).Body.Instructions.Count;
    }

    private static double InstructionsPerCrcByte(Assembly protocol)
    {
        MethodInfo compute = protocol.GetType("Clackbeat.Protocol.Framing.Crc32")!.GetMethod("Compute")!;
        compute.Invoke(null, [new byte[1], 0, 1]);
        long before = WorkMeter.Instructions;
        compute.Invoke(null, [new byte[1000], 0, 1000]);
        return (WorkMeter.Instructions - before) / 1000.0;
    }

    private static double Mean(IEnumerable<long> at) => (at.Last() - at.First()) / (at.Count() - 1.0);
}
