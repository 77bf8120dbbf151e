// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The ECG channel: clean voltage, baseline, mains and white noise, converted to codes.</summary>
internal sealed class EcgSource : ChannelSource
{
    private const double WanderNodeSeconds = 0.5;

    // Corner of the low-pass before the converter, in parts of the sampling rate: what pacing spikes go through.
    private const double SpikeCornerShare = 0.4;

    private readonly ConversionStage _converter;
    private readonly EcgGrid _waves;
    private readonly SpikeGrid? _spikes;
    private readonly SmoothNoise _wander;
    private readonly KeyedRandom _noise;
    private readonly EcgNoises _noises;
    private readonly Rotation _breathing;
    private readonly RotationGroup _mains;
    private readonly Course _breathingCourse;
    private readonly Course _secondCourse;
    private readonly Course _thirdCourse;
    private double _wanderMv;
    private double _noiseMv;
    private double _breathingMv;
    private Vector256<double> _mainsMv;

    public EcgSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains)
        : base(values, FormatOf(values), Device.Of(values, ChannelName.Ecg).Grid(values[EcgAmplifierKeys.RateHz], 0), [.. EcgAmplifierKeys.Live, .. EcgNoiseKeys.Live])
    {
        _converter = new ConversionStage(values, seed, Format, Grid);
        _waves = new EcgGrid(body, Grid);
        _spikes = SpikeGrid.IsNeeded(values) ? new SpikeGrid(body, Grid, SpikeCornerShare * Format.RateHz) : null;
        _wander = new SmoothNoise(new KeyedRandom(seed, "ecg_amplifier.baseline_wander"), WanderNodeSeconds, rms: 1);
        _noise = new KeyedRandom(seed, "ecg_amplifier.white_noise");
        _noises = new EcgNoises(values, seed, Grid);
        _breathing = new Rotation(body.Breathing.Phase, 1);
        _mains = new RotationGroup(mains, [1, 2, 3]);
        _breathingCourse = values.Course(EcgAmplifierKeys.BreathingBaselineMv);
        _secondCourse = values.Course(EcgAmplifierKeys.MainsSecondPercent);
        _thirdCourse = values.Course(EcgAmplifierKeys.MainsThirdPercent);
    }

    private EcgSource(EcgSource other, BodyModel body)
        : base(other)
    {
        _converter = other._converter.Copy();
        _waves = other._waves.Copy(body);
        _spikes = other._spikes?.Copy(body);
        _wander = other._wander;
        _noise = other._noise;
        _noises = other._noises.Copy();
        _breathing = other._breathing.Copy();
        _mains = other._mains.Copy();
        _breathingCourse = other._breathingCourse;
        _secondCourse = other._secondCourse;
        _thirdCourse = other._thirdCourse;
        _wanderMv = other._wanderMv;
        _noiseMv = other._noiseMv;
        _breathingMv = other._breathingMv;
        _mainsMv = other._mainsMv;
    }

    public override ChannelSource Copy(BodyModel body) => new EcgSource(this, body);

    protected override void Latch(double seconds)
    {
        _noises.Latch(seconds);
        _wanderMv = _noises.Levels.BaselineWanderMv(seconds);
        _noiseMv = _noises.Levels.WhiteNoiseMv(seconds);
        _breathingMv = _breathingCourse.Value(seconds);
        double mainsMv = _noises.Levels.MainsPeakMv(seconds);
        _mainsMv = Vector256.Create(
            mainsMv, mainsMv * _secondCourse.Value(seconds) * 0.01, mainsMv * _thirdCourse.Value(seconds) * 0.01, 0);
    }

    protected override void Make(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        scratch.Clear();
        AddWander(scratch, firstIndex);
        _waves.Add(scratch, firstIndex);
        _spikes?.Add(scratch, firstIndex);
        _noises.Add(scratch, firstIndex);
        if (_breathingMv != 0)
        {
            _breathing.Add(scratch, Grid, firstIndex, _breathingMv, 0);
        }

        if (_mainsMv != Vector256<double>.Zero)
        {
            _mains.Add(scratch, Grid, firstIndex, _mainsMv, Vector256<double>.Zero);
        }

        if (_noiseMv != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseMv);
        }

        _converter.Convert(scratch, codes, status, firstIndex);
    }

    private static ChannelFormat FormatOf(KeyValues values) => new()
    {
        Name = ChannelName.Ecg,
        Device = Device.Of(values, ChannelName.Ecg).Name,
        RateHz = (int)values[EcgAmplifierKeys.RateHz],
        Bits = (int)values[EcgAmplifierKeys.Bits],
        IsSigned = true,
        UnitPerCode = 2 * values[EcgAmplifierKeys.FullScaleMv] / (1 << (int)values[EcgAmplifierKeys.Bits]),
        DeclaredDelayNs = Device.Of(values, ChannelName.Ecg).DeclaredDelayNs(0),
    };

    // The wander of rms 1 goes into the empty buffer and is scaled there, before anything else.
    private void AddWander(Span<double> empty, long firstIndex)
    {
        if (_wanderMv == 0)
        {
            return;
        }

        _wander.Add(empty, Grid, firstIndex);
        for (int i = 0; i < empty.Length; i++)
        {
            empty[i] *= _wanderMv;
        }
    }
}
