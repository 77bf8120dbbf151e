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

    /// <inheritdoc/>
    public override string Name => "size";

    /// <inheritdoc/>
    public override bool IsOfScenarios => false;

    /// <inheritdoc/>
    public override string Title => "State and speed";

    /// <inheritdoc/>
    public override IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers)
    {
        // Whatever structs of the library the adapter holds, each with its own size.
        (string Name, int Bytes)[] parts = [.. typeof(LibraryDetector)
            .GetFields(BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public)
            .Where(f => f.FieldType.IsValueType && f.FieldType.Assembly.GetName().Name == Library)
            .Select(f => (f.FieldType.Name, Size(f.FieldType)))];
        int sum = parts.Sum(p => p.Bytes);
        string list = string.Join(", ", parts.Select(p => FormattableString.Invariant($"{p.Name} {p.Bytes}")));
        return
        [
            new Judge().AtMost("state", parts.Length == 0 ? null : sum, 8192, "bytes").Row("structs of the library in its adapter", FormattableString.Invariant($"{sum} bytes: {list}")),
            new FigureRow("speed", "≤ 8 ns per sample of the stream", "see `benchmarks/README.md`, column detect", "reported"),
        ];
    }

    private static int Size(Type type) =>
        (int)typeof(Unsafe).GetMethod(nameof(Unsafe.SizeOf))!.MakeGenericMethod(type).Invoke(null, null)!;
}
