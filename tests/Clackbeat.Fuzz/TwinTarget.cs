using System.Text.Json;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Files;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Fuzz;

/// <summary>A saved twin, which may come from somebody else: the ram that is read can be made, and runs some steps.</summary>
internal static class TwinTarget
{
    private const int Steps = 20;

    private static readonly string Path = Scratch.File("any.json");

    private static readonly JsonSerializerOptions Names = new() { PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower, IgnoreReadOnlyProperties = true };

    private static readonly SimulationOptions AtOnce = new() { FromRest = true };

    private static readonly RamDesign Design = RamDesigner.Design(new RamSite
    {
        Name = "fuzz",
        Supply = new Supply { HeadM = 3 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.Pe100, LengthM = 12, BoreM = 0.05, WallM = 0.005 },
        Delivery = new Delivery { HeadM = 20 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    });

    public static void Run(byte[] input)
    {
        File.WriteAllBytes(Path, input);
        try
        {
            RamParameters ram = TwinFile.Load(Path);
            var simulation = new RamSimulation(ram, Design.Sensor, AtOnce);
            for (int i = 0; i < Steps; i++)
            {
                simulation.Engine.Step();
            }
        }
        catch (InputException)
        {
            // A file that is refused in words.
        }
    }

    /// <summary>A twin as the program saves it.</summary>
    public static string Seed() =>
        $$"""{"schema": "{{TwinFile.Schema}}", "ram": {{JsonSerializer.Serialize(Design.Ram, Names)}}}""";
}
