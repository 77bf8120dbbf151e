// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>What every slot does with the LED light that reaches its photodiode: ambient light, amplifier, window and gain, noise, converter.</summary>
/// <remarks>
/// In this order: light of the slot before that is still there, ambient light and what leaks in where contact is lost, the amplifier's rail,
/// the share of the nominal window times gain, noise, converter. What is off costs a comparison a call and moves no bit.
/// </remarks>
internal sealed class SlotReceiver
{
    private readonly ConversionStage _converter;
    private readonly AmbientLight _ambient;
    private readonly KeyedRandom _noise;
    private readonly RecordedLight? _recorded;
    private readonly OpticalNoise _currentNoise;
    private readonly SampleGrid _grid;
    private readonly double[] _ledLight;
    private readonly double _crosstalk;
    private readonly double _amplifierFullNa;
    private readonly double _nominalUs;
    private SettlingValue _scale;
    private double _limitNa;
    private double _noiseNa;
    private double _recordedNa;

    /// <summary>Creates the receiver of a slot.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="format">The slot's channel.</param>
    /// <param name="grid">Its sampling instants.</param>
    /// <param name="mains">Phase of the mains.</param>
    /// <param name="noise">The slot's one source of noise.</param>
    /// <param name="settings">Settings at the start.</param>
    /// <param name="recorded">Noise from a recording; none in the dark slot.</param>
    public SlotReceiver(
        KeyValues values,
        ulong seed,
        ChannelFormat format,
        SampleGrid grid,
        WanderingPhase mains,
        KeyedRandom noise,
        in ChannelSettings settings,
        RecordedLight? recorded = null)
    {
        _recorded = recorded;
        _converter = new ConversionStage(values, seed, format, grid);
        _ambient = new AmbientLight(values, seed, mains);
        _noise = noise;
        _currentNoise = new OpticalNoise(values);
        _grid = grid;
        _nominalUs = values[OpticsKeys.IntegrationUs];
        _crosstalk = values[OpticsKeys.CrosstalkPercent] * 0.01;
        _amplifierFullNa = values[OpticsKeys.AmplifierFullNa];
        Contact = new SkinContact(values, seed, format.RateHz);
        _ledLight = new double[OpticalSlots.MayLoseContact(values) ? format.RateHz : 0];
        _scale = new SettlingValue(ScaleOf(settings), OpticalSlots.SettlingKeep(values, grid));
        _limitNa = LimitOf(settings);
    }

    private SlotReceiver(SlotReceiver other)
    {
        _converter = other._converter.Copy();
        _ambient = other._ambient.Copy();
        _noise = other._noise;
        _recorded = other._recorded;
        _recordedNa = other._recordedNa;
        _currentNoise = other._currentNoise;
        _grid = other._grid;
        _ledLight = new double[other._ledLight.Length];
        _crosstalk = other._crosstalk;
        _amplifierFullNa = other._amplifierFullNa;
        _nominalUs = other._nominalUs;
        _scale = other._scale;
        _limitNa = other._limitNa;
        _noiseNa = other._noiseNa;
        Contact = other.Contact.Copy();
    }

    /// <summary>How well this slot touches the skin.</summary>
    public SkinContact Contact { get; }

    /// <summary>Light of the slot before, where there is one and its light is kept.</summary>
    public LightRing? SlotBefore { get; set; }

    /// <summary>What the photocurrent is multiplied with on its way to the converter, once settled.</summary>
    public double Scale => _scale.Target;

    /// <summary>Takes the values that the live knobs have at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        Contact.Latch(seconds);
        _ambient.Latch(seconds);
    }

    /// <summary>Takes over settings.</summary>
    public void Change(in ChannelSettings settings)
    {
        _ambient.SetIntegration(settings.PulseWidthUs * 1e-6);
        _scale.MoveTo(ScaleOf(settings));
        _limitNa = LimitOf(settings);
    }

    /// <summary>Sets the noise: what is given, and what currents and resistor make, as the root of the summed variances.</summary>
    /// <param name="whiteNa">White noise at the converter [nA rms].</param>
    /// <param name="recordedNa">Recorded noise at the converter [nA rms].</param>
    /// <param name="ledNa">Light of the LED at the foot of the pulse [nA].</param>
    /// <param name="settings">Settings in force.</param>
    public void SetNoise(double whiteNa, double recordedNa, double ledNa, in ChannelSettings settings)
    {
        _noiseNa = whiteNa;
        _recordedNa = recordedNa;
        if (_currentNoise.IsOn)
        {
            double current = ledNa + (_ambient.LatchedNa * (1 + Contact.Leak(Contact.Latched)));
            double scale = _scale.Target;
            double made = scale == 0 ? 0 : _currentNoise.Variance(current, settings.PulseWidthUs, settings.Gain) * scale * scale;
            _noiseNa = Math.Sqrt((whiteNa * whiteNa) + made);
        }
    }

    /// <summary>Makes codes of LED light; the contact of the stretch is drawn already.</summary>
    /// <param name="light">LED light of this slot [nA]; becomes what stands at the converter.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Finish(Span<double> light, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        if (_crosstalk != 0)
        {
            SlotBefore?.Add(light, firstIndex, _crosstalk);
        }

        if (Contact.IsLess)
        {
            AddLeakingAmbient(light, status, firstIndex);
        }
        else
        {
            _ambient.Add(light, _grid, firstIndex);
        }

        if (_limitNa != 0)
        {
            Clip(light, status, _limitNa);
        }

        if (!_scale.IsSettled || _scale.Target != 1)
        {
            ApplyScale(light);
        }

        _recorded?.Add(light, _grid, firstIndex, _recordedNa);
        if (_noiseNa != 0)
        {
            _noise.AddNormals(light, firstIndex, _noiseNa);
        }

        _converter.Convert(light, codes, status, firstIndex);
    }

    /// <summary>An independent copy with the same state.</summary>
    public SlotReceiver Copy() => new(this);

    private static void Clip(Span<double> current, Span<ushort> status, double limit)
    {
        status = status[..current.Length];
        for (int i = 0; i < current.Length; i++)
        {
            if (current[i] > limit)
            {
                current[i] = limit;
                status[i] |= (ushort)SampleStatus.Saturated;
            }
        }
    }

    // Ambient light as always, then its share that leaks in: a sample with full contact keeps its bits.
    private void AddLeakingAmbient(Span<double> light, Span<ushort> status, long firstIndex)
    {
        Span<double> led = _ledLight.AsSpan(0, light.Length);
        light.CopyTo(led);
        _ambient.Add(light, _grid, firstIndex);
        status = status[..light.Length];
        ReadOnlySpan<double> drawn = Contact.Drawn;
        bool isLifting = Contact.IsLifting;
        double contact = Contact.Latched;
        if (!isLifting && contact >= SkinContact.LeastContact)
        {
            AddLeak(light, led, Contact.Leak(contact));
            return;
        }

        for (int i = 0; i < light.Length; i++)
        {
            contact = isLifting ? drawn[i] : contact;
            light[i] += Contact.Leak(contact) * (light[i] - led[i]);
            if (contact < SkinContact.LeastContact)
            {
                status[i] |= (ushort)SampleStatus.NoContact;
            }
        }
    }

    private static void AddLeak(Span<double> light, ReadOnlySpan<double> led, double leak)
    {
        int i = 0;
        for (; i + 4 <= light.Length; i += 4)
        {
            Vector256<double> all = Vector256.Create<double>(light[i..]);
            (all + ((all - Vector256.Create(led[i..])) * leak)).CopyTo(light[i..]);
        }

        for (; i < light.Length; i++)
        {
            light[i] += leak * (light[i] - led[i]);
        }
    }

    private void ApplyScale(Span<double> current)
    {
        if (_scale.IsSettled)
        {
            SpanLanes.Multiply(current, _scale.Target);
            return;
        }

        for (int i = 0; i < current.Length; i++)
        {
            current[i] *= _scale.Next();
        }
    }

    private double ScaleOf(in ChannelSettings settings) => settings.PulseWidthUs / _nominalUs * settings.Gain;

    // The gain lies in the amplifier itself: twice the gain, half the current up to its rail.
    private double LimitOf(in ChannelSettings settings) => settings.Gain > 0 ? _amplifierFullNa / settings.Gain : 0;
}
