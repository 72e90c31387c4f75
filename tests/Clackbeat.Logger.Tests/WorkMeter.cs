using Mono.Cecil;
using Mono.Cecil.Cil;
using Mono.Cecil.Rocks;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// Counts the IL instructions and calls that code carries out, by a counting call put in front of each basic block.
/// </summary>
public static class WorkMeter
{
    public static long Instructions { get; private set; }

    public static long Calls { get; private set; }

    /// <summary>Called by the metered code.</summary>
    public static void Add(int instructions, int calls)
    {
        Instructions += instructions;
        Calls += calls;
    }

    public static void Meter(ModuleDefinition module)
    {
        MethodReference add = module.ImportReference(typeof(WorkMeter).GetMethod(nameof(Add)));
        foreach (MethodDefinition method in module.GetTypes().SelectMany(t => t.Methods).Where(m => m.HasBody))
        {
            Meter(method.Body, add);
        }
    }

    private static void Meter(MethodBody body, MethodReference add)
    {
        body.SimplifyMacros();
        List<Instruction> all = [.. body.Instructions];
        HashSet<Instruction> leaders = [all[0]];
        foreach (Instruction instruction in all)
        {
            leaders.UnionWith(instruction.Operand switch
            {
                Instruction target => [target],
                Instruction[] targets => targets,
                _ => [],
            });
            if (instruction.OpCode.FlowControl is FlowControl.Branch or FlowControl.Cond_Branch or FlowControl.Throw
                && instruction.Next is { } next)
            {
                leaders.Add(next);
            }
        }

        foreach (ExceptionHandler handler in body.ExceptionHandlers)
        {
            leaders.UnionWith([handler.TryStart, handler.HandlerStart]);
        }

        ILProcessor il = body.GetILProcessor();
        for (int start = 0; start < all.Count;)
        {
            int end = start + 1;
            while (end < all.Count && !leaders.Contains(all[end]))
            {
                end++;
            }

            int calls = all[start..end].Count(i => i.OpCode.FlowControl == FlowControl.Call);
            PutInFront(il, all[start], end - start, calls, add);
            start = end;
        }
    }

    // The leader itself becomes the count and its copy follows, so that branches to it pass the count.
    private static void PutInFront(ILProcessor il, Instruction leader, int instructions, int calls, MethodReference add)
    {
        Instruction copy = il.Create(OpCodes.Nop);
        copy.OpCode = leader.OpCode;
        copy.Operand = leader.Operand;
        leader.OpCode = OpCodes.Ldc_I4;
        leader.Operand = instructions;
        il.InsertAfter(leader, copy);
        il.InsertAfter(leader, il.Create(OpCodes.Call, add));
        il.InsertAfter(leader, il.Create(OpCodes.Ldc_I4, calls));
    }
}
