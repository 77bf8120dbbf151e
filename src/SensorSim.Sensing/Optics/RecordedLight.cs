// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Recorded noise in the lit slots: one recording for all of them, each sees it at its own instants.</summary>
/// <remarks>Level: the given current and the one that follows from the given ratio, added in power. Without state: a copy may share it.</remarks>
public sealed class RecordedLight
{
    private readonly Course _fixedNa;
    private readonly Course _decibel;
    private readonly bool _hasDecibel;
    private readonly RecordingLoop? _loop;
    private readonly double _start;

    /// <summary>Creates the noise.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario: where the recording starts.</param>
    public RecordedLight(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        _fixedNa = values.Course(RecordedLightKeys.NaRms);
        _decibel = values.Course(RecordedLightKeys.SnrDb);
        _hasDecibel = values.IsSet(RecordedLightKeys.SnrDb);
        bool isOff = _fixedNa.IsConstant && _fixedNa.BaseValue == 0 && !_hasDecibel && _decibel.IsConstant;
        _loop = isOff ? null : values.Attached<NoiseRecording>(RecordedLightKeys.File)?.LoopFor(values[OpticsKeys.RateHz]);
        _start = new KeyedRandom(seed, "optics.noise_recording").Uniform(0);
    }

    /// <summary>The courses that the level follows beside that of the light.</summary>
    public IReadOnlyList<Course> Courses => [_fixedNa, _decibel];

    /// <summary>The level at a time [nA rms]; 0 without a recording.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="footToPeakNa">Mean foot-to-peak light of the channel [nA].</param>
    public double RmsNa(double seconds, double footToPeakNa)
    {
        if (_loop is null)
        {
            return 0;
        }

        double fixedNa = _fixedNa.Value(seconds);
        double decibel = _decibel.Value(seconds);

        // A ratio that the scenario does not give stands at its cleanest until its first change, and is no noise at all.
        if (!_hasDecibel && decibel == RecordedLightKeys.SnrDb.Default)
        {
            return fixedNa;
        }

        double byRatioNa = footToPeakNa / (2 * Math.Sqrt(2.0)) * Decibels.Amplitude(-decibel);
        return Math.Sqrt((fixedNa * fixedNa) + (byRatioNa * byRatioNa));
    }

    /// <summary>Adds the noise.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants of the slot.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="rmsNa">The level, as <see cref="RmsNa"/> gave it [nA rms].</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double rmsNa)
    {
        if (rmsNa != 0)
        {
            _loop?.Add(buffer, grid, firstIndex, _start, rmsNa);
        }
    }
}
