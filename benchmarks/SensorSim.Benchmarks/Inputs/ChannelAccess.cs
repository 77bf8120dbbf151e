// SPDX-License-Identifier: MIT
using System.Reflection;
using System.Runtime.CompilerServices;
using SensorSim.Body;
using SensorSim.Sensing;

namespace SensorSim.Benchmarks.Inputs;

/// <summary>Reaches the channels inside a stream, which are nobody's business but a measurement's.</summary>
internal static class ChannelAccess
{
    private const string SourceType = "SensorSim.Sensing.ChannelSource, SensorSim.Sensing";

    /// <summary>The source of one channel.</summary>
    public static object Source(SensorStream stream, int channel) => ((object[])Field(stream, "_sources"))[channel];

    /// <summary>The body that feeds a stream.</summary>
    public static BodyModel Body(SensorStream stream) => (BodyModel)Field(stream, "_body");

    /// <summary>A copy of a source with the same state.</summary>
    [UnsafeAccessor(UnsafeAccessorKind.Method, Name = "Copy")]
    [return: UnsafeAccessorType(SourceType)]
    public static extern object Copy([UnsafeAccessorType(SourceType)] object source, BodyModel body);

    /// <summary>Makes samples of a source.</summary>
    [UnsafeAccessor(UnsafeAccessorKind.Method, Name = "Fill")]
    public static extern void Fill(
        [UnsafeAccessorType(SourceType)] object source, Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex);

    private static object Field(SensorStream stream, string name) =>
        typeof(SensorStream).GetField(name, BindingFlags.Instance | BindingFlags.NonPublic)?.GetValue(stream)
        ?? throw new MissingFieldException(nameof(SensorStream), name);
}
