// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Processes;

/// <summary>Recorded noise as it was read: equally spaced values and their rate. Immutable, and safe for several threads.</summary>
public sealed class NoiseRecording
{
    /// <summary>Fewest values.</summary>
    public const int Fewest = 64;

    /// <summary>Most values.</summary>
    public const int Most = 1_000_000;

    private readonly Lock _lock = new();
    private RecordingLoop? _loop;

    /// <summary>Creates a recording.</summary>
    /// <param name="values">Values, in any unit; kept, not copied; <see cref="Fewest"/> to <see cref="Most"/>, finite, not all the same.</param>
    /// <param name="rateHz">Sampling rate [Hz], above 0.</param>
    /// <exception cref="ArgumentException">The values are too few, too many or all the same.</exception>
    public NoiseRecording(double[] values, double rateHz)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rateHz);
        if (values.Length is < Fewest or > Most || values.All(v => v == values[0]))
        {
            throw new ArgumentException($"A recording has {Fewest} to {Most} values that are not all the same.", nameof(values));
        }

        Values = values;
        RateHz = rateHz;
    }

    /// <summary>Sampling rate [Hz].</summary>
    public double RateHz { get; }

    /// <summary>The values.</summary>
    internal double[] Values { get; }

    /// <summary>The recording as an endless loop for a channel; the latest one is kept, since streams of one scenario ask for the same.</summary>
    /// <param name="channelRateHz">Sampling rate of the channel [Hz].</param>
    public RecordingLoop LoopFor(double channelRateHz)
    {
        lock (_lock)
        {
            if (_loop is null || _loop.ChannelRateHz != channelRateHz)
            {
                _loop = new RecordingLoop(this, channelRateHz);
            }

            return _loop;
        }
    }
}
