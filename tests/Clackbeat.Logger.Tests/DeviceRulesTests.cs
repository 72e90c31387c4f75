using Mono.Cecil;

namespace Clackbeat.Logger.Tests;

/// <summary>The build for the microcontroller is free of what fails on it, and the search for that finds it.</summary>
public class DeviceRulesTests
{
    [Theory]
    [InlineData("Clackbeat.Protocol")]
    [InlineData("Clackbeat.Logger")]
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
        using ModuleDefinition own = ModuleDefinition.ReadModule(typeof(DeviceRulesTests).Assembly.Location);
        TypeDefinition type = own.GetType("Clackbeat.Logger.Tests.Specimens").NestedTypes.Single(t => t.Name == specimen);
        Assert.Contains(DeviceRules.Offences(type), o => o.Contains(word, StringComparison.Ordinal));
    }

    [Fact]
    public void AMemberThatTheDevicesCoreLibraryLacksIsFound()
    {
        using ModuleDefinition module = DeviceBuild.Open("Clackbeat.Protocol");
        TypeReference array = new("System", "Array", module, module.TypeSystem.CoreLibrary);
        MethodReference absent = new("Sort", module.TypeSystem.Void, array);
        absent.Parameters.Add(new ParameterDefinition(array));
        Assert.NotNull(array.Resolve());
        Assert.Null(absent.Resolve());
    }
}
