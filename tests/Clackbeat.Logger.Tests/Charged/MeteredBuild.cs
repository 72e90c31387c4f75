using System.Reflection;
using System.Runtime.Loader;
using Mono.Cecil;

namespace Clackbeat.Logger.Tests.Charged;

/// <summary>
/// The host build of the logger, its every instruction counted, behind the virtual device whose clock is charged with
/// them. A second copy of these assemblies and of this test's own lives in a context of its own, so that the other tests
/// run the plain build.
/// </summary>
/// <remarks>
/// It is not the runtime's interpreter: the instructions are those of the same sources, and each is charged alike. What
/// an instruction really takes on a board is unknown until the firmware's bench has measured it.
/// </remarks>
internal sealed class MeteredBuild : AssemblyLoadContext
{
    private static readonly string[] Metered = ["Clackbeat.Protocol", "Clackbeat.Logger"];
    private static readonly string[] Copied = ["Clackbeat.VirtualLogger", "Clackbeat.Recording", "Clackbeat.Logger.Tests"];

    private MeteredBuild()
        : base("metered build")
    {
    }

    /// <summary>Calls a static method of this test assembly inside the metered context; only plain types may pass.</summary>
    public static T Call<T>(Type scenario, string method, params object[] arguments)
    {
        MeteredBuild build = new();
        Assembly copy = build.LoadFromAssemblyName(typeof(MeteredBuild).Assembly.GetName());
        MethodInfo run = copy.GetType(scenario.FullName!)!.GetMethod(method, BindingFlags.Public | BindingFlags.Static)!;
        return (T)run.Invoke(null, arguments)!;
    }

    protected override Assembly? Load(AssemblyName assemblyName)
    {
        string path = Path.Combine(AppContext.BaseDirectory, assemblyName.Name + ".dll");
        if (Copied.Contains(assemblyName.Name))
        {
            return LoadFromAssemblyPath(path);
        }

        if (!Metered.Contains(assemblyName.Name))
        {
            return null;
        }

        using var module = ModuleDefinition.ReadModule(path);
        WorkMeter.Meter(module);
        using MemoryStream stream = new();
        module.Write(stream);
        stream.Position = 0;
        return LoadFromStream(stream);
    }
}
