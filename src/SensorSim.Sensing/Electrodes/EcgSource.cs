// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Sensing.Conversion;
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

    private readonly SampleGrid _grid;
    private readonly Converter _converter;
    private readonly EcgGrid _waves;
    private readonly SpikeGrid? _spikes;
    private readonly SmoothNoise _wander;
    private readonly KeyedRandom _noise;
    private readonly double _noiseMv;
    private readonly double _breathingMv;
    private readonly Rotation _breathing;
    private readonly RotationGroup _mains;
    private readonly Vector256<double> _mainsMv;

    public EcgSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains)
    {
        int rate = (int)values[EcgAmplifierKeys.RateHz];
        Format = new ChannelFormat
        {
            Name = ChannelName.Ecg,
            Device = "sensor",
            RateHz = rate,
            Bits = (int)values[EcgAmplifierKeys.Bits],
            IsSigned = true,
            UnitPerCode = 2 * values[EcgAmplifierKeys.FullScaleMv] / (1 << (int)values[EcgAmplifierKeys.Bits]),
        };
        _grid = new SampleGrid(0, 1.0 / rate);
        _converter = new Converter(Format);
        _waves = new EcgGrid(body, _grid);
        _spikes = SpikeGrid.IsNeeded(values) ? new SpikeGrid(body, _grid, SpikeCornerShare * rate) : null;
        _wander = new SmoothNoise(
            new KeyedRandom(seed, "ecg_amplifier.baseline_wander"), WanderNodeSeconds, values[EcgAmplifierKeys.BaselineWanderMvRms]);
        _noise = new KeyedRandom(seed, "ecg_amplifier.white_noise");
        _noiseMv = values[EcgAmplifierKeys.WhiteNoiseUvRms] * 1e-3;
        _breathingMv = values[EcgAmplifierKeys.BreathingBaselineMv];
        _breathing = new Rotation(body.Breathing.Phase, 1);
        double mainsMv = values[EcgAmplifierKeys.MainsUvPp] * 0.5e-3;
        _mains = new RotationGroup(mains, [1, 2, 3]);
        _mainsMv = Vector256.Create(
            mainsMv,
            mainsMv * values[EcgAmplifierKeys.MainsSecondPercent] * 0.01,
            mainsMv * values[EcgAmplifierKeys.MainsThirdPercent] * 0.01,
            0);
    }

    private EcgSource(EcgSource other, BodyModel body)
    {
        Format = other.Format;
        _grid = other._grid;
        _converter = other._converter;
        _waves = other._waves.Copy(body);
        _spikes = other._spikes?.Copy(body);
        _wander = other._wander;
        _noise = other._noise;
        _noiseMv = other._noiseMv;
        _breathingMv = other._breathingMv;
        _breathing = other._breathing.Copy();
        _mains = other._mains.Copy();
        _mainsMv = other._mainsMv;
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    public override void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        scratch.Clear();
        _waves.Add(scratch, firstIndex);
        _spikes?.Add(scratch, firstIndex);
        _wander.Add(scratch, _grid, firstIndex);
        if (_breathingMv != 0)
        {
            _breathing.Add(scratch, _grid, firstIndex, _breathingMv, 0);
        }

        if (_mainsMv != Vector256<double>.Zero)
        {
            _mains.Add(scratch, _grid, firstIndex, _mainsMv, Vector256<double>.Zero);
        }

        if (_noiseMv != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseMv);
        }

        _converter.Convert(scratch, codes, status);
    }

    public override ChannelSource Copy(BodyModel body) => new EcgSource(this, body);
}
