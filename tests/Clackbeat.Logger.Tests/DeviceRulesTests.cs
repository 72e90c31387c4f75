using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Clackbeat.Logger.Tests;

/// <summary>The build for the microcontroller is free of what fails on it, and the search for that finds it.</summary>
public class DeviceRulesTests
{
    [Theory]
    [InlineData("Clackbeat.Protocol")]
    [InlineData("Clackbeat.Logger")]
    [InlineData(DeviceBuild.Board)]
    public void TheDeviceBuildHoldsNothingThatFailsOnTheDevice(string name)
    {
        using ModuleDefinition module = DeviceBuild.Open(name);
        Assert.Contains(module.GetTypes(), t => t.HasMethods);
        Assert.Empty(DeviceRules.Offences(module));
    }

    [Theory]
    [InlineData("GenericType`1", "generic type")]
    [InlineData("GenericMethod", "generic method")]
    [InlineData("CallsGeneric", "uses")]
    [InlineData("Grid", "forbidden type")]
    [InlineData("Stack", "stackalloc")]
    [InlineData("Pinned", "fixed")]
    [InlineData("IWithDefault", "default interface method")]
    public void EachForbiddenThingIsFound(string specimen, string word)
    {
        using var own = ModuleDefinition.ReadModule(typeof(DeviceRulesTests).Assembly.Location);
        TypeDefinition type = own.GetType("Clackbeat.Logger.Tests.Specimens").NestedTypes.Single(t => t.Name == specimen);
        Assert.Contains(DeviceRules.Offences(type), o => o.Contains(word, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Array", "Sort", "mscorlib", "System.Void System.Array::Sort(System.Array): not in the device's libraries")]
    [InlineData("Math", "Sqrt", "mscorlib", "System.Math: not in the device's libraries")]
    [InlineData("Math", "Sqrt", "System.Runtime", "references System.Runtime")]
    public void AMemberThatTheDeviceLacksIsFound(string type, string method, string assembly, string offence)
    {
        using MemoryStream changed = new();
        using (ModuleDefinition module = DeviceBuild.Open("Clackbeat.Protocol"))
        {
            Assert.Empty(DeviceRules.Offences(module));
            AddCall(module, type, method, assembly);
            module.Write(changed);
        }

        changed.Position = 0;
        using var read = ModuleDefinition.ReadModule(changed, DeviceBuild.Reading());
        Assert.Contains(DeviceRules.Offences(read), o => o.EndsWith(offence, StringComparison.Ordinal));
    }

    // The program begins where the runtime looks for it, in an assembly of its own.
    [Fact]
    public void TheBoardHasAnEntryWithoutArguments()
    {
        using ModuleDefinition module = DeviceBuild.Open(DeviceBuild.Board);
        Assert.Equal("System.Void Clackbeat.Logger.Esp32.Program::Main()", module.EntryPoint.FullName);
    }

    private static void AddCall(ModuleDefinition module, string type, string method, string assembly)
    {
        AssemblyNameReference scope = module.AssemblyReferences.FirstOrDefault(r => r.Name == assembly)
            ?? new AssemblyNameReference(assembly, new Version(1, 0));
        if (!module.AssemblyReferences.Contains(scope))
        {
            module.AssemblyReferences.Add(scope);
        }

        TypeReference declaring = new("System", type, module, scope);
        MethodReference called = new(method, module.TypeSystem.Void, declaring);
        called.Parameters.Add(new ParameterDefinition(declaring));
        MethodDefinition caller = new("Calls", MethodAttributes.Static | MethodAttributes.Public, module.TypeSystem.Void);
        caller.Body.Instructions.Add(Instruction.Create(OpCodes.Ldnull));
        caller.Body.Instructions.Add(Instruction.Create(OpCodes.Call, called));
        caller.Body.Instructions.Add(Instruction.Create(OpCodes.Ret));
        module.Types[1].Methods.Add(caller);
    }
}
