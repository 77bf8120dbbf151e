// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>The last stage of every channel: from analog values at the sampling instants to codes, with the converter's errors.</summary>
/// <remarks>Samples come in order, each once.</remarks>
internal sealed class ConversionStage
{
    private readonly Converter _converter;

    /// <summary>Creates the stage of a channel.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="format">The channel.</param>
    /// <param name="grid">Its sampling instants.</param>
    public ConversionStage(KeyValues values, ulong seed, ChannelFormat format, SampleGrid grid)
    {
        _ = values;
        _ = seed;
        _ = grid;
        _converter = new Converter(format);
    }

    /// <summary>Converts samples.</summary>
    /// <param name="analog">Physical values [unit of the channel]; may be changed.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        _ = firstIndex;
        _converter.Convert(analog, codes, status);
    }

    /// <summary>An independent copy with the same state.</summary>
    public ConversionStage Copy() => (ConversionStage)MemberwiseClone();
}
