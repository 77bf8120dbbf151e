// SPDX-License-Identifier: MIT
using System.Reflection;
using System.Runtime.CompilerServices;
using SensorSim.Detectors;
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;

namespace SensorSim.Grading.Groups;

/// <summary>Size of the state; speed stands with the benchmarks.</summary>
internal sealed class SizeGroup : GradingGroup
{
    private const string Library = "SensorSim.Detection";
    private const int DeepestPart = 3;

    /// <inheritdoc/>
    public override string Name => "size";

    /// <inheritdoc/>
    public override bool IsOfScenarios => false;

    /// <inheritdoc/>
    public override string Title => "State and speed";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        // Whatever structs of the library the adapter holds, itself or in parts of its own, each with its own size. What never changes
        // (options, tables) is no state.
        (string Name, int Bytes)[] parts = [.. Structs(typeof(LibraryDetector), 0).Select(t => (t.Name, Size(t)))];
        int sum = parts.Sum(p => p.Bytes);
        string list = string.Join(", ", parts.Select(p => FormattableString.Invariant($"{p.Name} {p.Bytes}")));
        return
        [
            new Judge().AtMost("state", parts.Length == 0 ? null : sum, 8192, "bytes").Row("structs of the library in its adapter", FormattableString.Invariant($"{sum} bytes: {list}")),
            new FigureRow("speed", "≤ 8 ns per sample of the stream", "see `benchmarks/README.md`, column detect", "reported"),
        ];
    }

    // Fields of a base class are private to it: asked for class by class.
    private static IEnumerable<Type> Structs(Type holder, int depth) => Lineage(holder)
        .SelectMany(type => type.GetFields(BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public | BindingFlags.DeclaredOnly))
        .Where(f => !f.IsInitOnly || !f.FieldType.IsValueType)
        .SelectMany(f => f.FieldType.IsValueType && f.FieldType.Assembly.GetName().Name == Library ? [f.FieldType]
            : f.FieldType.Assembly == typeof(LibraryDetector).Assembly && depth < DeepestPart ? Structs(f.FieldType, depth + 1)
            : Enumerable.Empty<Type>());

    private static IEnumerable<Type> Lineage(Type type)
    {
        for (Type? each = type; each is not null; each = each.BaseType)
        {
            yield return each;
        }
    }

    private static int Size(Type type) =>
        (int)typeof(Unsafe).GetMethod(nameof(Unsafe.SizeOf))!.MakeGenericMethod(type).Invoke(null, null)!;
}
