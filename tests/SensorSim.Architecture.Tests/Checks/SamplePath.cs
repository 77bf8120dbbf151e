// SPDX-License-Identifier: MIT
using Mono.Cecil;
using Mono.Cecil.Cil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Finds, in what runs for every sample, allocations, exceptions, divisions and calls through tables: rule 7.</summary>
/// <remarks>Starts at the methods of the given names and follows every call into the code under test, so that a helper cannot hide one.</remarks>
internal static class SamplePath
{
    /// <summary>One line per place; empty when the sample path is clean.</summary>
    /// <param name="types">What to look through, and how far calls are followed.</param>
    /// <param name="perSample">Names of the methods that are called once a sample.</param>
    /// <param name="perEvent">Names of the methods called once a beat or reading: they and what they call may divide, nothing else.</param>
    public static IEnumerable<string> Findings(
        IReadOnlyCollection<TypeDefinition> types, IReadOnlyCollection<string> perSample, IReadOnlyCollection<string> perEvent)
    {
        // The compiler embeds helper types of the same names in several assemblies; one of each will do.
        Dictionary<string, MethodDefinition> known = types.SelectMany(type => type.Methods)
            .DistinctBy(method => method.FullName, StringComparer.Ordinal)
            .ToDictionary(method => method.FullName, StringComparer.Ordinal);
        var toVisit = new Queue<(MethodDefinition Method, bool MayDivide)>(
            known.Values.Where(method => perSample.Contains(method.Name)).Select(method => (method, false)));
        var seen = new HashSet<(string, bool)>();
        while (toVisit.TryDequeue(out (MethodDefinition Method, bool MayDivide) item))
        {
            bool mayDivide = item.MayDivide || perEvent.Contains(item.Method.Name);
            if (!item.Method.HasBody || !seen.Add((item.Method.FullName, mayDivide)))
            {
                continue;
            }

            foreach (Instruction instruction in item.Method.Body.Instructions)
            {
                string? why = Refusal(instruction, mayDivide);
                if (why is not null)
                {
                    yield return $"{item.Method.FullName}: {instruction.OpCode} {instruction.Operand}: {why}";
                }

                if (instruction.Operand is MethodReference called && known.TryGetValue(Key(called), out MethodDefinition? target))
                {
                    toVisit.Enqueue((target, mayDivide));
                }
            }
        }
    }

    private static string? Refusal(Instruction instruction, bool mayDivide) => instruction.OpCode.Code switch
    {
        Code.Throw or Code.Rethrow => "no exception",
        Code.Newarr or Code.Box => "no allocation",
        Code.Newobj when !MakesValue((MethodReference)instruction.Operand) => "no allocation",
        Code.Div or Code.Div_Un or Code.Rem or Code.Rem_Un => mayDivide ? null : "no division: shift",
        Code.Callvirt when IsDispatched(instruction) => "no call through a table or delegate",
        Code.Call or Code.Callvirt when ((MethodReference)instruction.Operand).Name.StartsWith("Throw", StringComparison.Ordinal) => "no exception",
        _ => null,
    };

    private static bool MakesValue(MethodReference constructor)
        => constructor.DeclaringType is not ArrayType && constructor.DeclaringType.Resolve().IsValueType;

    /// <summary>
    /// The compiler writes callvirt for plain methods too; only an open virtual or interface method or a delegate goes through a pointer.
    /// A call constrained to a generic parameter is direct when that parameter is a struct, as on the sample path.
    /// </summary>
    private static bool IsDispatched(Instruction call)
    {
        MethodDefinition? method = ((MethodReference)call.Operand).Resolve();
        if (method is null || call.Previous?.OpCode.Code == Code.Constrained)
        {
            return false;
        }

        bool isDelegate = method.DeclaringType.BaseType?.FullName == "System.MulticastDelegate";
        return isDelegate || (method.IsVirtual && !method.IsFinal && !method.DeclaringType.IsSealed);
    }

    private static string Key(MethodReference method) => method.Resolve()?.FullName ?? method.FullName;
}
