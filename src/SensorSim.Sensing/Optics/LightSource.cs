// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Sensing.Optics;

/// <summary>One lit slot (red, infrared or green): LED light through pulsing tissue, then what every slot does with it.</summary>
internal sealed class LightSource : ChannelSource
{
    private readonly SlotReceiver _receiver;
    private readonly RecordedLight _recorded;
    private readonly PulseGrid _pulse;
    private readonly OpticalLevels _levels;
    private readonly LevelControl? _control;
    private readonly Course _breathingCourse;
    private readonly Course _artefactCourse;
    private readonly double _height;
    private readonly double _infraredHeight;
    private readonly bool _hasArtefact;
    private readonly TissueArtefactMix _artefact;
    private RotationGroup _breathing;
    private SettlingValue _ledMa;
    private double _latchedSeconds;
    private double _tissueNa;
    private double _pulseFactor;
    private double _breathingUnits;
    private double _artefactRms;

    public LightSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains, ChannelName name)
        : base(
            values,
            OpticalSlots.Format(values, name),
            OpticalSlots.Grid(values, name),
            LiveKeys(name),
            OpticalSlots.Settings(values, name),
            latchesAlways: LevelControl.IsOn(values) || AmbientLight.ChangesByItself(values))
    {
        _recorded = new RecordedLight(values, seed);
        _receiver = new SlotReceiver(values, seed, Format, Grid, mains, Noise(seed, name), Settings, _recorded);
        _pulse = new PulseGrid(body, Grid, name, -body.SteadyFoot(name));
        _breathing = new RotationGroup(body.Breathing.Phase, [1], Grid, Stretch.MostSamples(Format.RateHz));
        _levels = new OpticalLevels(values, name);
        _control = LevelControl.IsOn(values) ? new LevelControl(values, Format) : null;
        _ledMa = new SettlingValue(Settings.LedCurrentMa, OpticalSlots.SettlingKeep(values, Grid));
        Light = values[OpticsKeys.CrosstalkPercent] > 0 ? new LightRing(Stretch.MostSamples(Format.RateHz)) : null;
        _breathingCourse = values.Course(PulseKeys.RespiratoryBaselinePercent);
        _artefactCourse = values.Course(OpticsKeys.MovementArtefactRatio);
        _height = body.SteadyHeight(name);
        _infraredHeight = body.SteadyHeight(ChannelName.Infrared);
        _hasArtefact = !_artefactCourse.IsAlways(0);
        _artefact = new TissueArtefactMix(values, seed, body.Movement, Grid);
    }

    private LightSource(LightSource other, BodyModel body)
        : base(other)
    {
        _receiver = other._receiver.Copy();
        _recorded = other._recorded;
        _pulse = other._pulse.Copy(body);
        _breathing = other._breathing.Copy();
        _levels = other._levels;
        _control = other._control?.Copy();
        _ledMa = other._ledMa;
        Light = other.Light?.Copy();
        _breathingCourse = other._breathingCourse;
        _artefactCourse = other._artefactCourse;
        _height = other._height;
        _infraredHeight = other._infraredHeight;
        _hasArtefact = other._hasArtefact;
        _artefact = other._artefact.Copy();
        _latchedSeconds = other._latchedSeconds;
        _tissueNa = other._tissueNa;
        _pulseFactor = other._pulseFactor;
        _breathingUnits = other._breathingUnits;
        _artefactRms = other._artefactRms;
    }

    /// <summary>This slot's LED light, for the slot after it; only with crosstalk.</summary>
    public LightRing? Light { get; }

    /// <summary>The body's movement as this slot draws it, without the posture's gravity.</summary>
    public MovementGrid Movement => _artefact.Movement;

    // The control of the level decides at a latch by the codes before it.
    protected override bool ConvertsEachLatch => _control is not null;

    public override void Join(ChannelSource earlier)
    {
        if (earlier is LightSource other)
        {
            // Asked in order: the last one stays, the slot before this one.
            _receiver.SlotBefore = other.Light;
            _artefact.Join(other._artefact);
            _breathing = other._breathing;
            other.ShareRoom(_receiver);
        }
    }

    /// <summary>Lets a later slot share the room.</summary>
    public void ShareRoom(SlotReceiver later) => later.Join(_receiver);

    public override ChannelSource Copy(BodyModel body) => new LightSource(this, body);

    protected override void Latch(double seconds)
    {
        _receiver.Latch(seconds, LatchNumber);
        if (MayKnobsHaveChanged)
        {
            LatchKnobs(seconds);
        }
        else
        {
            _receiver.FollowRoom(Settings);
        }

        if (Settings.Decimation == 0)
        {
            _control?.Forget();
        }
        else if (_control is not null)
        {
            Control(_control.Decide(Settings.LedCurrentMa), seconds);
        }
    }

    private void LatchKnobs(double seconds)
    {
        _latchedSeconds = seconds;
        _tissueNa = _levels.TissueNa(seconds);
        _pulseFactor = _levels.PulseFactor(seconds);
        _breathingUnits = _breathingCourse.Value(seconds) * 0.01;
        _artefactRms = _artefactCourse.Value(seconds) * _infraredHeight / (2 * Math.Sqrt(2.0));
        _artefact.Latch(seconds);
        SetNoise();
    }

    protected override void SettingsChanged(in ChannelSettings before, double seconds)
    {
        // A channel that is switched off does not flash.
        _ledMa.MoveTo(Settings.Decimation == 0 ? 0 : Settings.LedCurrentMa);
        _receiver.Change(Settings);
        SetNoise();
        if ((before.Decimation == 0) != (Settings.Decimation == 0))
        {
            _control?.Forget();
        }
    }

    protected override void Make(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        // Absorbance above that of the steady foot.
        _pulse.Fill(scratch, firstIndex);
        if (_breathingUnits != 0)
        {
            _breathing.Add(scratch, Grid, firstIndex, Vector256.CreateScalar(_breathingUnits * _height), Vector256<double>.Zero);
        }

        if (_pulseFactor != 1)
        {
            SpanLanes.Multiply(scratch, _pulseFactor);
        }

        if (_hasArtefact)
        {
            _artefact.Add(scratch, firstIndex, _artefactRms);
        }

        _receiver.Contact.Draw(Grid, firstIndex, scratch.Length);
        Shine(scratch);
        Light?.Keep(scratch, firstIndex);
        _receiver.Finish(scratch, status, firstIndex);
    }

    protected override void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        _receiver.Convert(analog, codes, status, firstIndex);
        _control?.See(codes);
    }

    private static NumberKey[] LiveKeys(ChannelName name) =>
    [
        .. AmbientKeys.Live, .. RecordedLightKeys.Live, OpticalLevels.LightKey(name), OpticsKeys.WhiteNoiseNaRms, OpticsKeys.WhiteNoiseSnrDb,
        OpticsKeys.MovementArtefactRatio, PulseKeys.RespiratoryBaselinePercent, ContactKeys.ContactPercent, ContactKeys.PressureMmhg,
        TissueArtefactKeys.CoherencePercent,
    ];

    // Written out: names of sources are read from the code to see that each is there once.
    private static KeyedRandom Noise(ulong seed, ChannelName name) => name switch
    {
        ChannelName.Red => new KeyedRandom(seed, "optics.red_noise"),
        ChannelName.Infrared => new KeyedRandom(seed, "optics.infrared_noise"),
        _ => new KeyedRandom(seed, "optics.green_noise"),
    };

    // Absorbance changes are small: a Taylor polynomial of degree 8 is exact to 1e-9 up to 0.4.
    // Beyond 600 any light is beyond every range, and must stay a number: no light times infinity would be none.
    private static double SmallExponential(double x)
    {
        if (Math.Abs(x) > 0.4)
        {
            return PortableMath.Exp(Math.Min(x, 600));
        }

        double p = 1.0 / 40320;
        p = (p * x) + (1.0 / 5040);
        p = (p * x) + (1.0 / 720);
        p = (p * x) + (1.0 / 120);
        p = (p * x) + (1.0 / 24);
        p = (p * x) + (1.0 / 6);
        p = (p * x) + 0.5;
        p = (p * x) + 1;
        return (p * x) + 1;
    }

    // Four at a time where none of them is large: the same operations, so the same bits.
    private static void Shine(Span<double> scratch, double levelNa)
    {
        int i = 0;
        ref double light = ref MemoryMarshal.GetReference(scratch);
        for (; i + 4 <= scratch.Length; i += 4)
        {
            Vector256<double> x = -Vector256.LoadUnsafe(ref light, (nuint)i);
            if (Vector256.GreaterThanAny(Vector256.Abs(x), Vector256.Create(0.4)))
            {
                for (int lane = 0; lane < 4; lane++)
                {
                    scratch[i + lane] = levelNa * SmallExponential(-scratch[i + lane]);
                }

                continue;
            }

            Vector256<double> p = Vector256.Create(1.0 / 40320);
            p = (p * x) + Vector256.Create(1.0 / 5040);
            p = (p * x) + Vector256.Create(1.0 / 720);
            p = (p * x) + Vector256.Create(1.0 / 120);
            p = (p * x) + Vector256.Create(1.0 / 24);
            p = (p * x) + Vector256.Create(1.0 / 6);
            p = (p * x) + Vector256.Create(0.5);
            p = (p * x) + Vector256<double>.One;
            (((p * x) + Vector256<double>.One) * levelNa).StoreUnsafe(ref light, (nuint)i);
        }

        for (; i < scratch.Length; i++)
        {
            scratch[i] = levelNa * SmallExponential(-scratch[i]);
        }
    }

    // Told like any other change of a setting.
    private void Control(double nextMa, double seconds)
    {
        if (nextMa != Settings.LedCurrentMa)
        {
            ChangeSettings(Settings with { LedCurrentMa = nextMa }, seconds);
            long atNs = new TickClock(Format.RateHz).Nanoseconds(Grid.FirstAtOrAfter(seconds));
            Acquisition?.Add(new AcquisitionEvent(Format.Name, AcquisitionKind.Setting, atNs, atNs, nextMa));
        }
    }

    private void SetNoise()
    {
        double levelNa = LevelNa(_ledMa.Target, _receiver.Contact.Latched);
        double atConverterNa = levelNa * _receiver.Scale;
        double footToPeakNa = OpticalLevels.FootToPeakNa(atConverterNa, _height * _pulseFactor);
        double whiteNa = _levels.WhiteNoiseNa(_latchedSeconds, footToPeakNa);
        _receiver.SetNoise(whiteNa, _recorded.RmsNa(_latchedSeconds, footToPeakNa), levelNa, Settings);
    }

    // Light at the foot [nA].
    private double LevelNa(double ledMa, double contact) => _tissueNa * (ledMa / OpticsKeys.ReferenceMa) * contact;

    // From absorbance to LED light [nA].
    private void Shine(Span<double> scratch)
    {
        if (_ledMa.IsSettled && !_receiver.Contact.IsLifting)
        {
            Shine(scratch, LevelNa(_ledMa.Target, _receiver.Contact.Latched));
            return;
        }

        ReadOnlySpan<double> drawn = _receiver.Contact.Drawn;
        bool isLifting = _receiver.Contact.IsLifting;
        double contact = _receiver.Contact.Latched;
        for (int i = 0; i < scratch.Length; i++)
        {
            contact = isLifting ? drawn[i] : contact;
            scratch[i] = LevelNa(_ledMa.Next(), contact) * SmallExponential(-scratch[i]);
        }
    }
}
