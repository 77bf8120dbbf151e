// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>The noise that comes in at the electrodes: muscle, electrode motion, recorded noise; each null when it is off throughout.</summary>
internal sealed class EcgNoises
{
    private readonly SampleGrid _grid;
    private readonly MuscleFilter? _filter;
    private readonly KeyedRandom _muscleNoise;
    private readonly double[] _draws;
    private readonly bool _hasMuscle;
    private readonly MuscleBursts? _bursts;
    private readonly MotionTransients? _slow;
    private readonly MotionBaseline? _baseline;
    private readonly MotionTransients? _sharp;
    private readonly RecordingLoop? _recording;
    private readonly double _recordingStart;
    private double _muscleMv;
    private double _burstMv;
    private double _slowMv;
    private double _sharpMv;
    private double _recordingMv;

    /// <summary>Creates the noise of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="grid">Sampling instants of the ECG.</param>
    public EcgNoises(KeyValues values, ulong seed, SampleGrid grid)
    {
        Levels = values.Made(static v => new EcgNoiseLevels(v));
        _grid = grid;
        _filter = Levels.Filter;
        _hasMuscle = Levels.HasMuscle;
        _muscleNoise = new KeyedRandom(seed, "ecg_noise.muscle");
        _draws = _hasMuscle ? new double[_filter!.DrawsFor(MuscleFilter.LongestStretch)] : [];
        if (Levels.HasBursts)
        {
            _bursts = new MuscleBursts(
                _filter!,
                new KeyedRandom(seed, "ecg_noise.muscle_burst"),
                new KeyedRandom(seed, "ecg_noise.muscle_burst_times"),
                grid,
                values[EcgNoiseKeys.MuscleBurstPerMin],
                values[EcgNoiseKeys.MuscleBurstS]);
        }

        if (Levels.SlowDrive is MotionDrive slow)
        {
            _slow = new MotionTransients(MotionKind.Slow, slow, new KeyedRandom(seed, "ecg_noise.slow_motion"), grid, 1 - EcgNoiseLevels.BaselinePower);
            _baseline = new MotionBaseline(new KeyedRandom(seed, "ecg_noise.slow_motion_baseline"), grid, slow, EcgNoiseLevels.BaselinePower);
        }

        if (Levels.SharpDrive is MotionDrive sharp)
        {
            _sharp = new MotionTransients(MotionKind.Sharp, sharp, new KeyedRandom(seed, "ecg_noise.sharp_motion"), grid, 1);
        }

        _recording = Levels.Recording;
        _recordingStart = new KeyedRandom(seed, "ecg_noise.recording").Uniform(0);
    }

    private EcgNoises(EcgNoises other)
    {
        Levels = other.Levels;
        _grid = other._grid;
        _filter = other._filter;
        _hasMuscle = other._hasMuscle;
        _muscleNoise = other._muscleNoise;
        _draws = new double[other._draws.Length];
        _bursts = other._bursts?.Copy();
        _slow = other._slow?.Copy();
        _baseline = other._baseline?.Copy();
        _sharp = other._sharp?.Copy();
        _recording = other._recording;
        _recordingStart = other._recordingStart;
        _muscleMv = other._muscleMv;
        _burstMv = other._burstMv;
        _slowMv = other._slowMv;
        _sharpMv = other._sharpMv;
        _recordingMv = other._recordingMv;
    }

    /// <summary>Levels of all noise in the ECG, those of other sources included.</summary>
    public EcgNoiseLevels Levels { get; }

    /// <summary>An independent copy with the same state.</summary>
    public EcgNoises Copy() => new(this);

    /// <summary>Takes the levels at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        _muscleMv = _hasMuscle ? Levels.MuscleMv(seconds) : 0;
        _burstMv = _bursts is null ? 0 : Levels.BurstMv(seconds);
        _slowMv = _slow is null ? 0 : Levels.SlowMotionMv(seconds);
        _sharpMv = _sharp is null ? 0 : Levels.SharpMotionMv(seconds);
        _recordingMv = _recording is null ? 0 : Levels.RecordingMv(seconds);
    }

    /// <summary>Adds the noise [mV].</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Add(Span<double> buffer, long firstIndex)
    {
        if (_muscleMv != 0)
        {
            AddMuscle(buffer, firstIndex);
        }

        // Also at a level of 0: trains go on, so that what a level brings in later is what was there all along.
        _bursts?.Add(buffer, firstIndex, _burstMv);
        _slow?.Add(buffer, firstIndex, _slowMv);
        _baseline?.Add(buffer, firstIndex, _slowMv);
        _sharp?.Add(buffer, firstIndex, _sharpMv);
        if (_recordingMv != 0)
        {
            _recording!.Add(buffer, _grid, firstIndex, _recordingStart, _recordingMv);
        }
    }

    private void AddMuscle(Span<double> buffer, long firstIndex)
    {
        for (int done = 0; done < buffer.Length;)
        {
            Span<double> target = buffer[done..Math.Min(buffer.Length, done + MuscleFilter.LongestStretch)];
            _filter!.Add(_muscleNoise, firstIndex + done, target, _draws, _muscleMv);
            done += target.Length;
        }
    }
}
