using System.Reflection;
using System.Runtime.Loader;
using Mono.Cecil;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// The assemblies as built for the microcontroller: to look into, and to run here. They run because the desktop
/// runtime's own mscorlib forwards the types that theirs names; what only the device's runtime does wrong shows by
/// <see cref="DeviceRules"/>, not by running.
/// </summary>
internal static class DeviceBuild
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "netnano");

    /// <summary>Ours that run on any machine.</summary>
    public static IReadOnlyList<string> Names { get; } = ["Clackbeat.Protocol", "Clackbeat.Logger"];

    /// <summary>Ours for one board.</summary>
    public const string Board = "Clackbeat.Logger.Esp32";

    /// <summary>The device's own libraries that the board is compiled against.</summary>
    public static IReadOnlyList<string> Libraries { get; } =
    [
        "mscorlib", "nanoFramework.Hardware.Esp32", "nanoFramework.Runtime.Native", "System.Device.Adc", "System.Device.Gpio", "System.Device.I2c", "System.Device.Spi",
        "System.IO.FileSystem", "System.IO.Ports", "System.IO.Streams",
    ];

    public static ModuleDefinition Open(string name) =>
        ModuleDefinition.ReadModule(Path.Combine(Folder, name + (name == Board ? ".exe" : ".dll")), Reading());

    /// <summary>Reads modules so that what they refer to is looked for among the device's assemblies only.</summary>
    public static ReaderParameters Reading()
    {
        DefaultAssemblyResolver resolver = new();
        foreach (string folder in resolver.GetSearchDirectories())
        {
            resolver.RemoveSearchDirectory(folder);
        }

        resolver.AddSearchDirectory(Folder);
        return new ReaderParameters { AssemblyResolver = resolver };
    }

    /// <summary>Loads both, each changed by a step beforehand.</summary>
    public static Dictionary<string, Assembly> Load(Action<ModuleDefinition>? change = null)
    {
        AssemblyLoadContext context = new("device build");
        Dictionary<string, Assembly> loaded = [];
        context.Resolving += (_, name) => loaded.GetValueOrDefault(name.Name ?? "");
        foreach (string name in Names)
        {
            using ModuleDefinition module = Open(name);
            change?.Invoke(module);
            using MemoryStream stream = new();
            module.Write(stream);
            stream.Position = 0;
            loaded[name] = context.LoadFromStream(stream);
        }

        return loaded;
    }

    public static dynamic Make(this Assembly assembly, string type, params object?[] arguments) =>
        Activator.CreateInstance(assembly.GetType(type, throwOnError: true)!, arguments)!;
}
