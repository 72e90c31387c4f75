using System;
using System.Reflection;

[assembly: AssemblyVersion("1.7.0.0")]

namespace nanoFramework.Runtime.Native;

public enum RebootOption
{
    NormalReboot = 0,
}

public class GC
{
    public static uint Run(bool compactHeap) => throw new NotSupportedException();
}

public class Power
{
    public static void RebootDevice(RebootOption rebootOption = RebootOption.NormalReboot) => throw new NotSupportedException();
}
