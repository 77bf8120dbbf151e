// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
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
    private readonly double[] _room = new double[LiveLatch.Samples];
    private readonly double _crosstalk;
    private readonly double _amplifierFullNa;
    private readonly double _nominalUs;
    private readonly bool _isWatching;
    private SettlingValue _scale;
    private double _limitNa;
    private double _whiteNa;
    private double _ledNa;
    private double _noisyRoomNa;
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
        _ambient = new AmbientLight(values, seed, mains, grid);
        _noise = noise;
        _currentNoise = new OpticalNoise(values);
        _grid = grid;
        _nominalUs = values[OpticsKeys.IntegrationUs];
        _crosstalk = values[OpticsKeys.CrosstalkPercent] * 0.01;
        _amplifierFullNa = values[OpticsKeys.AmplifierFullNa];
        Contact = new SkinContact(values, seed, Stretch.MostSamples(format.RateHz));
        _isWatching = Contact.MayLift || AmbientLight.ChangesByItself(values);
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
        _crosstalk = other._crosstalk;
        _amplifierFullNa = other._amplifierFullNa;
        _nominalUs = other._nominalUs;
        _isWatching = other._isWatching;
        _scale = other._scale;
        _limitNa = other._limitNa;
        _whiteNa = other._whiteNa;
        _ledNa = other._ledNa;
        _noisyRoomNa = other._noisyRoomNa;
        _noiseNa = other._noiseNa;
        Contact = other.Contact.Copy();
    }

    /// <summary>How well this slot touches the skin.</summary>
    public SkinContact Contact { get; }

    /// <summary>Light of the slot before, where there is one and its light is kept.</summary>
    public LightRing? SlotBefore { get; set; }

    /// <summary>What the photocurrent is multiplied with on its way to the converter, once settled.</summary>
    public double Scale => _scale.Target;

    /// <summary>Shares with an earlier slot of the same device what both would make alike.</summary>
    /// <param name="earlier">Of the same values.</param>
    public void Join(SlotReceiver earlier) => _ambient.Join(earlier._ambient);

    /// <summary>Takes the values that the live knobs have at a time.</summary>
    /// <param name="seconds">Body time of sample 64 × <paramref name="latch"/> of the slot [s].</param>
    /// <param name="latch">Number of the 64 samples that begin there.</param>
    public void Latch(double seconds, long latch)
    {
        Contact.Latch(seconds);
        _ambient.Latch(seconds, latch);
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
        _whiteNa = whiteNa;
        _noiseNa = whiteNa;
        _recordedNa = recordedNa;
        _ledNa = ledNa;
        AddCurrentNoise(settings);
    }

    /// <summary>Lets the noise follow the room's light, as it was latched last, where nothing else has changed.</summary>
    /// <param name="settings">Settings in force.</param>
    public void FollowRoom(in ChannelSettings settings)
    {
        if (_noisyRoomNa != _ambient.LatchedNa)
        {
            AddCurrentNoise(settings);
        }
    }

    /// <summary>Takes LED light to the converter; the contact of the stretch is drawn already.</summary>
    /// <param name="light">LED light of this slot [nA]; becomes what stands at the converter.</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Finish(Span<double> light, Span<ushort> status, long firstIndex)
    {
        if (_crosstalk != 0)
        {
            SlotBefore?.Add(light, firstIndex, _crosstalk);
        }

        AddRoom(light, status, firstIndex);
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
    }

    /// <summary>Converts what stands at the converter.</summary>
    /// <inheritdoc cref="ConversionStage.Convert"/>
    public void Convert(Span<double> light, Span<int> codes, Span<ushort> status, long firstIndex) =>
        _converter.Convert(light, codes, status, firstIndex);

    /// <summary>An independent copy with the same state.</summary>
    public SlotReceiver Copy() => new(this);

    private static void Clip(Span<double> current, Span<ushort> status, double limit)
    {
        const int Lanes = 4;
        status = status[..current.Length];
        var most = Vector256.Create(limit);
        ref double first = ref MemoryMarshal.GetReference(current);
        for (int i = 0; i < current.Length; i++)
        {
            // Four below it need no more than a look.
            while (i + Lanes <= current.Length && !Vector256.GreaterThanAny(Vector256.LoadUnsafe(ref first, (nuint)i), most))
            {
                i += Lanes;
            }

            if (i < current.Length && current[i] > limit)
            {
                current[i] = limit;
                status[i] |= (ushort)SampleStatus.Saturated;
            }
        }
    }

    // Room light, and what leaks in where contact is lost. Both what happens in the room and lift-offs are looked for in 64 samples at
    // absolute places, so that a cut moves no bit.
    private void AddRoom(Span<double> light, Span<ushort> status, long firstIndex)
    {
        for (int done = 0; done < light.Length;)
        {
            long index = firstIndex + done;
            long latch = index / LiveLatch.Samples;
            int count = _isWatching ? Math.Min(light.Length - done, (int)(((latch + 1) * LiveLatch.Samples) - index)) : light.Length - done;
            Span<double> part = light.Slice(done, count);
            Span<ushort> flags = status.Slice(done, count);
            bool isLifting = _isWatching && Contact.LiftsWithin(_grid.Seconds(latch * LiveLatch.Samples), _grid.Seconds((latch + 1) * LiveLatch.Samples));
            if (isLifting || !_ambient.TryAdd(part, index, 1 + Contact.Leak(Contact.Latched)))
            {
                AddChangingRoom(part, flags, index, done);
            }
            else if (Contact.Latched < SkinContact.LeastContact)
            {
                SpanLanes.Or(flags, (ushort)SampleStatus.NoContact);
            }

            done += count;
        }
    }

    private void AddChangingRoom(Span<double> light, Span<ushort> status, long firstIndex, int place)
    {
        Span<double> room = _room.AsSpan(0, light.Length);
        _ambient.Fill(room, firstIndex);
        if (!Contact.IsLifting && Contact.Latched >= SkinContact.LeastContact)
        {
            SpanLanes.AddProduct(light, room, 1 + Contact.Leak(Contact.Latched));
            return;
        }

        for (int i = 0; i < light.Length; i++)
        {
            double contact = Contact.IsLifting ? Contact.Drawn[place + i] : Contact.Latched;
            light[i] += (1 + Contact.Leak(contact)) * room[i];
            status[i] |= (ushort)(contact < SkinContact.LeastContact ? SampleStatus.NoContact : 0);
        }
    }

    private void AddCurrentNoise(in ChannelSettings settings)
    {
        _noisyRoomNa = _ambient.LatchedNa;
        if (_currentNoise.IsOn)
        {
            double current = _ledNa + (_noisyRoomNa * (1 + Contact.Leak(Contact.Latched)));
            double scale = _scale.Target;
            double made = scale == 0 ? 0 : _currentNoise.Variance(current, settings.PulseWidthUs, settings.Gain) * scale * scale;
            _noiseNa = Math.Sqrt((_whiteNa * _whiteNa) + made);
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
