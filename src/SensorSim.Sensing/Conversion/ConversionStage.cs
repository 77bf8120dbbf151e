// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>The last stage of every channel: from analog values at the sampling instants to codes, with the converter's errors.</summary>
/// <remarks>Samples come in order, each once. What is off costs nothing and changes no bit.</remarks>
internal sealed class ConversionStage
{
    private readonly Converter _ideal;
    private readonly ConverterErrors? _errors;
    private readonly SamplingJitter? _jitter;
    private readonly StuckCodes? _stuck;
    private readonly BitFlips? _flips;

    /// <summary>Creates the stage of a channel.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="format">The channel.</param>
    /// <param name="grid">Its sampling instants.</param>
    public ConversionStage(KeyValues values, ulong seed, ChannelFormat format, SampleGrid grid)
    {
        _ideal = new Converter(format);
        _errors = ConverterErrors.Of(values, seed, format);
        _jitter = SamplingJitter.Of(values, seed, format, grid);
        _stuck = StuckCodes.Of(values, seed, format);
        _flips = BitFlips.Of(values, seed, format);
    }

    private ConversionStage(ConversionStage other)
    {
        _ideal = other._ideal;
        _errors = other._errors?.Copy();
        _jitter = other._jitter?.Copy();
        _stuck = other._stuck?.Copy();
        _flips = other._flips?.Copy();
    }

    /// <summary>Converts samples.</summary>
    /// <param name="analog">Physical values [unit of the channel]; may be changed.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        _jitter?.Apply(analog, firstIndex);
        if (_errors is null)
        {
            _ideal.Convert(analog, codes, status);
        }
        else
        {
            _errors.Convert(analog, codes, status, firstIndex);
        }

        _stuck?.Apply(codes, status, firstIndex);
        _flips?.Apply(codes, firstIndex);
    }

    /// <summary>An independent copy with the same state.</summary>
    public ConversionStage Copy() => new(this);
}
