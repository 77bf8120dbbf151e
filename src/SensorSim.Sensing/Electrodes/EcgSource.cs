// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The ECG channel: clean voltage and what the electrodes add, through the amplifier, with its noise, converted to codes.</summary>
internal sealed class EcgSource : ChannelSource
{
    private static readonly NumberKey[] s_live = [.. EcgAmplifierKeys.Live, .. EcgNoiseKeys.Live, .. ElectrodeKeys.Live, .. MainsKeys.Live];

    private readonly ConversionStage _converter;
    private readonly EcgGrid _waves;
    private readonly SpikeGrid? _spikes;
    private readonly SpikeInput? _spikeInput;
    private readonly ElectrodeInput? _electrodes;
    private readonly Contacts? _contacts;
    private readonly LeadOff? _leadOff;
    private readonly MainsPickup? _pickup;
    private readonly AmplifierChain? _amplifier;
    private readonly FlickerNoise? _flicker;
    private readonly BaselineWander _wander;
    private readonly KeyedRandom _noise;
    private readonly EcgNoises _noises;
    private readonly BreathingBaseline _breathing;
    private readonly MainsWaves _mains;
    private readonly Course _breathingCourse;
    private readonly Course _secondCourse;
    private readonly Course _thirdCourse;
    private readonly Course _modulationCourse;
    private readonly Course _flickerCourse;
    private double _wanderMv;
    private double _noiseMv;
    private double _breathingMv;
    private double _flickerMv;
    private double _modulation;
    private Vector256<double> _mainsMv;

    public EcgSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains)
        : base(values, FormatOf(values), Device.Of(values, ChannelName.Ecg).Grid(values[EcgAmplifierKeys.RateHz], 0), s_live)
    {
        _converter = new ConversionStage(values, seed, Format, Grid);
        _waves = new EcgGrid(body, Grid);
        if (SpikeGrid.IsNeeded(values))
        {
            double range = values[EcgAmplifierKeys.InputRangeMv];
            bool isFlagging = values[EcgAmplifierKeys.PacingFlag] == "on";
            _spikes = range > 0 ? null : new SpikeGrid(body, Grid, FrontEndResponse.CornerShare * Format.RateHz);
            _spikeInput = range > 0 || isFlagging ? new SpikeInput(body, Grid, Format.RateHz, range, isFlagging) : null;
        }

        _electrodes = ElectrodeInput.Create(values, seed, Grid, Format.RateHz);
        _contacts = Contacts.Create(values, seed, Grid);
        _leadOff = _contacts is null ? null : new LeadOff(values, Grid, Format.RateHz);
        _mains = new MainsWaves(values, seed, Grid, mains);
        _pickup = MainsPickup.Create(values, _mains);
        _amplifier = AmplifierChain.Create(values, Grid, Format.RateHz);
        _wander = new BaselineWander(new KeyedRandom(seed, "ecg_amplifier.baseline_wander"), Grid);
        _noise = new KeyedRandom(seed, "ecg_amplifier.white_noise");
        _noises = new EcgNoises(values, seed, Grid);
        _breathing = new BreathingBaseline(body.Breathing.Phase, Grid);
        _breathingCourse = values.Course(EcgAmplifierKeys.BreathingBaselineMv);
        _secondCourse = values.Course(EcgAmplifierKeys.MainsSecondPercent);
        _thirdCourse = values.Course(EcgAmplifierKeys.MainsThirdPercent);
        _modulationCourse = values.Course(MainsKeys.ModulationPercent);
        _flickerCourse = values.Course(EcgAmplifierKeys.FlickerNoiseUvRms);
        _flicker = !_flickerCourse.IsAlways(0)
            ? new FlickerNoise(
                new KeyedRandom(seed, "ecg_amplifier.flicker_noise"), new KeyedRandom(seed, "ecg_amplifier.flicker_noise_start"), Grid)
            : null;
    }

    private EcgSource(EcgSource other, BodyModel body)
        : base(other)
    {
        _converter = other._converter.Copy();
        _waves = other._waves.Copy(body);
        _spikes = other._spikes?.Copy(body);
        _spikeInput = other._spikeInput?.Copy(body);
        _electrodes = other._electrodes?.Copy();
        _contacts = other._contacts?.Copy();
        _leadOff = other._leadOff?.Copy();
        _mains = other._mains.Copy();
        _pickup = other._pickup?.Copy(_mains);
        _amplifier = other._amplifier?.Copy();
        _flicker = other._flicker?.Copy();
        _wander = other._wander.Copy();
        _noise = other._noise;
        _noises = other._noises.Copy();
        _breathing = other._breathing.Copy();
        _breathingCourse = other._breathingCourse;
        _secondCourse = other._secondCourse;
        _thirdCourse = other._thirdCourse;
        _modulationCourse = other._modulationCourse;
        _flickerCourse = other._flickerCourse;
        _wanderMv = other._wanderMv;
        _noiseMv = other._noiseMv;
        _breathingMv = other._breathingMv;
        _flickerMv = other._flickerMv;
        _modulation = other._modulation;
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
        _modulation = _modulationCourse.Value(seconds) * 0.01;
        _flickerMv = _flickerCourse.Value(seconds) * 1e-3;
        _electrodes?.Latch(seconds);
        _contacts?.Latch(seconds);
        _pickup?.Latch(seconds, _modulation);
    }

    protected override void Make(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        // Parts work in pieces anyway: what one has made for a piece is still at hand for the next one.
        for (int done = 0; done < scratch.Length; done += LookAheadFilter.Piece)
        {
            int count = Math.Min(scratch.Length - done, LookAheadFilter.Piece);
            MakePiece(scratch.Slice(done, count), status.Slice(done, count), firstIndex + done);
        }

        Amplify(scratch);
    }

    protected override void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex) =>
        _converter.Convert(analog, codes, status, firstIndex);

    // At the converter.
    private void MakePiece(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        _wander.Make(scratch, firstIndex, _wanderMv);
        _waves.Add(scratch, firstIndex);
        _spikes?.Add(scratch, firstIndex);
        _spikeInput?.Add(scratch, status, firstIndex);
        if (_breathingMv != 0)
        {
            _breathing.Add(scratch, firstIndex, _breathingMv);
        }

        _electrodes?.Add(scratch, firstIndex);

        // What muscles and movement add at the electrodes: contacts, input range and filters act on it.
        _noises.Add(scratch, firstIndex);
        double steadyMv = PassInputs(scratch, status, firstIndex);
        _amplifier?.Run(scratch, status, firstIndex, steadyMv);
        if (_mainsMv != Vector256<double>.Zero)
        {
            _mains.Add(scratch, firstIndex, _mainsMv, Vector256<double>.Zero, _modulation);
        }

        _flicker?.Add(scratch, firstIndex, _flickerMv);

        if (_noiseMv != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseMv);
        }
    }

    // From the electrodes to the inputs, contact by contact. Returns what the inputs have been for long before sample 0 [mV].
    private double PassInputs(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        double steadyMv = firstIndex == 0 ? _electrodes?.SteadyMv(Grid.Seconds(0)) ?? 0 : 0;
        if (_contacts is null || _leadOff is null)
        {
            _pickup?.Add(scratch, firstIndex, SampleStatus.None);
            return steadyMv;
        }

        for (int done = 0; done < scratch.Length;)
        {
            SampleStatus off = _contacts.Off(firstIndex + done, firstIndex + scratch.Length, out long until);
            int count = (int)(until - firstIndex) - done;
            if (firstIndex + done == 0)
            {
                _leadOff.Settle(off);
                steadyMv = _leadOff.SteadyMv(steadyMv);
            }

            _leadOff.Run(scratch.Slice(done, count), status.Slice(done, count), off);
            _pickup?.Add(scratch.Slice(done, count), firstIndex + done, off);
            done += count;
        }

        return steadyMv;
    }

    private static ChannelFormat FormatOf(KeyValues values) => new()
    {
        Name = ChannelName.Ecg,
        Device = Device.Of(values, ChannelName.Ecg).Name,
        RateHz = (int)values[EcgAmplifierKeys.RateHz],
        Bits = (int)values[EcgAmplifierKeys.Bits],
        IsSigned = true,
        UnitPerCode = 2 * values[EcgAmplifierKeys.FullScaleMv] / (1 << (int)values[EcgAmplifierKeys.Bits]),
        DeclaredDelayNs = Device.Of(values, ChannelName.Ecg).DeclaredDelayNs(-LowPassSeconds(values)),
    };

    // Whoever builds a filter knows its delay: the channel declares it like the place of a slot, with the other sign.
    private static double LowPassSeconds(KeyValues values)
    {
        double corner = values[EcgAmplifierKeys.LowPassHz];
        return corner > 0 ? LowPass.DelaySeconds(corner, values[EcgAmplifierKeys.RateHz]) : 0;
    }
}
