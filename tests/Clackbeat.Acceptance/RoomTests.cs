using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Clackbeat.Acceptance;

/// <summary>Inside an assembly the namespaces form no loop: whoever reads one folder need not have read what comes after it.</summary>
public class RoomTests
{
    public static TheoryData<string> Assemblies => [.. Directory.EnumerateFiles(AppContext.BaseDirectory, "Clackbeat*.dll")
        .Select(f => Path.GetFileNameWithoutExtension(f)!)
        .Where(n => !n.Contains("Acceptance", StringComparison.Ordinal))
        .Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void Its_namespaces_form_no_loop(string assembly)
    {
        using var module = ModuleDefinition.ReadModule(Path.Combine(AppContext.BaseDirectory, assembly + ".dll"));
        Dictionary<string, Dictionary<string, string>> uses = Uses(module);
        string[] loops = [.. uses.Keys
            .SelectMany(from => uses[from].Keys
                .Where(to => string.CompareOrdinal(from, to) < 0 && Reaches(uses, from, to) && Reaches(uses, to, from))
                .Select(to => $"{from} <-> {to}: {uses[from][to]}; back by {Way(uses, to, from)}"))];
        Assert.True(loops.Length == 0, string.Join('\n', loops));
    }

    // Namespace -> namespace it uses -> one place where it does.
    private static Dictionary<string, Dictionary<string, string>> Uses(ModuleDefinition module)
    {
        var uses = new Dictionary<string, Dictionary<string, string>>(StringComparer.Ordinal);
        foreach (TypeDefinition type in module.GetTypes().Where(t => Room(t).StartsWith("Clackbeat", StringComparison.Ordinal)))
        {
            string from = Room(type);
            uses.TryAdd(from, new(StringComparer.Ordinal));
            foreach (TypeReference used in UsedBy(type).SelectMany(Parts))
            {
                if (used.Scope == module && Room(used) is var to && to != from && to.StartsWith("Clackbeat", StringComparison.Ordinal))
                {
                    uses[from].TryAdd(to, $"{type.Name} uses {used.Name}");
                }
            }
        }

        foreach (string to in uses.Values.SelectMany(u => u.Keys).ToArray())
        {
            uses.TryAdd(to, new(StringComparer.Ordinal));
        }

        return uses;
    }

    private static IEnumerable<TypeReference?> UsedBy(TypeDefinition type) =>
    [
        type.BaseType,
        .. type.Interfaces.Select(i => i.InterfaceType),
        .. type.CustomAttributes.Select(a => a.AttributeType),
        .. type.Fields.Select(f => f.FieldType),
        .. type.Properties.Select(p => p.PropertyType),
        .. type.Methods.SelectMany(UsedBy),
    ];

    private static IEnumerable<TypeReference?> UsedBy(MethodDefinition method)
    {
        IEnumerable<TypeReference?> outside = [method.ReturnType, .. method.Parameters.Select(p => p.ParameterType)];
        return !method.HasBody ? outside : outside
            .Concat(method.Body.Variables.Select(v => v.VariableType))
            .Concat(method.Body.Instructions.SelectMany(UsedBy));
    }

    private static IEnumerable<TypeReference?> UsedBy(Instruction instruction) => instruction.Operand switch
    {
        TypeReference type => [type],
        MethodReference method => [method.DeclaringType, method.ReturnType, .. method.Parameters.Select(p => p.ParameterType),
            .. method is GenericInstanceMethod generic ? generic.GenericArguments : []],
        FieldReference field => [field.DeclaringType, field.FieldType],
        _ => [],
    };

    private static IEnumerable<TypeReference> Parts(TypeReference? type) => type switch
    {
        null or GenericParameter => [],
        GenericInstanceType generic => [generic.ElementType, .. generic.GenericArguments.SelectMany(Parts)],
        TypeSpecification wrapped => Parts(wrapped.ElementType),
        _ => [type],
    };

    private static string Room(TypeReference type) => type.DeclaringType is { } outer ? Room(outer) : type.Namespace;

    private static bool Reaches(Dictionary<string, Dictionary<string, string>> uses, string from, string to) => Shortest(uses, from, to) is not null;

    private static string Way(Dictionary<string, Dictionary<string, string>> uses, string from, string to)
    {
        List<string> path = Shortest(uses, from, to) ?? [];
        return string.Join(", ", path.Zip(path.Skip(1), (a, b) => $"{a} -> {b} ({uses[a][b]})"));
    }

    private static List<string>? Shortest(Dictionary<string, Dictionary<string, string>> uses, string from, string to)
    {
        var before = new Dictionary<string, string>(StringComparer.Ordinal) { [from] = from };
        var queue = new Queue<string>([from]);
        while (queue.TryDequeue(out string? at))
        {
            if (at == to)
            {
                var path = new List<string> { to };
                while (path[0] != from)
                {
                    path.Insert(0, before[path[0]]);
                }

                return path;
            }

            foreach (string next in uses[at].Keys.Where(n => before.TryAdd(n, at)))
            {
                queue.Enqueue(next);
            }
        }

        return null;
    }
}
