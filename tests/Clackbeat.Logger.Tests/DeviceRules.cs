using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// Finds what compiles for the microcontroller and then fails on it. The list comes from trials on the runtime's own
/// interpreter: generic types crash it, generic methods hang it, arrays of several dimensions crash it; fixed, stackalloc
/// and default interface methods fail silently.
/// </summary>
internal static class DeviceRules
{
    public static IEnumerable<string> Offences(ModuleDefinition module) =>
        module.GetTypes().SelectMany(Offences).Concat(Missing(module));

    public static IEnumerable<string> Offences(TypeDefinition type)
    {
        if (type.HasGenericParameters)
        {
            yield return $"{type}: generic type";
        }

        foreach (FieldDefinition field in type.Fields.Where(f => IsForbidden(f.FieldType)))
        {
            yield return $"{field}: forbidden type";
        }

        foreach (string offence in type.Methods.SelectMany(Offences))
        {
            yield return offence;
        }
    }

    private static IEnumerable<string> Offences(MethodDefinition method)
    {
        if (method.HasGenericParameters)
        {
            yield return $"{method}: generic method";
        }

        if (method.DeclaringType.IsInterface && method.HasBody && !method.IsStatic)
        {
            yield return $"{method}: default interface method";
        }

        if (IsForbidden(method.ReturnType) || method.Parameters.Any(p => IsForbidden(p.ParameterType)))
        {
            yield return $"{method}: forbidden type in its signature";
        }

        if (!method.HasBody)
        {
            yield break;
        }

        if (method.Body.Variables.Any(v => v.VariableType.IsPinned))
        {
            yield return $"{method}: fixed";
        }

        if (method.Body.Variables.Any(v => IsForbidden(v.VariableType)))
        {
            yield return $"{method}: forbidden type of a local";
        }

        foreach (Instruction instruction in method.Body.Instructions)
        {
            if (instruction.OpCode.Code == Code.Localloc)
            {
                yield return $"{method}: stackalloc";
            }

            if (instruction.Operand is GenericInstanceMethod or TypeReference or MemberReference
                && Uses((MemberReference)instruction.Operand))
            {
                yield return $"{method}: uses {instruction.Operand}";
            }
        }
    }

    private static IEnumerable<string> Missing(ModuleDefinition module)
    {
        List<string> foreign = [.. module.AssemblyReferences.Select(r => r.Name)
            .Except(DeviceBuild.Libraries).Except(DeviceBuild.Names)];
        foreach (string reference in foreign)
        {
            yield return $"{module}: references {reference}";
        }

        foreach (TypeReference type in module.GetTypeReferences()
            .Where(t => !foreign.Contains(t.Scope.Name) && t.Resolve() is null))
        {
            yield return $"{type}: not in the device's libraries";
        }

        foreach (MemberReference member in module.GetMemberReferences()
            .Where(m => !foreign.Contains(m.DeclaringType.Scope.Name) && m.Resolve() is null))
        {
            yield return $"{member}: not in the device's libraries";
        }
    }

    private static bool Uses(MemberReference member) => member is GenericInstanceMethod
        || (member is TypeReference type && IsForbidden(type))
        || (member.DeclaringType is { } declaring && IsForbidden(declaring));

    private static bool IsForbidden(TypeReference type) => type switch
    {
        GenericInstanceType or GenericParameter => true,
        ArrayType array => array.Rank > 1 || IsForbidden(array.ElementType),
        TypeSpecification other => IsForbidden(other.ElementType),
        _ => false,
    };
}
