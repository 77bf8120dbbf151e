// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The dark slot: ambient light and noise, no LED; what the slot before leaves behind.</summary>
internal sealed class DarkSource : ChannelSource
{
    private readonly SlotReceiver _receiver;
    private readonly Course _noiseCourse;
    private double _whiteNa;

    public DarkSource(KeyValues values, ulong seed, WanderingPhase mains)
        : base(
            values,
            OpticalSlots.Format(values, ChannelName.Dark),
            OpticalSlots.Grid(values, ChannelName.Dark),
            [.. AmbientKeys.Live, ContactKeys.ContactPercent, OpticsKeys.WhiteNoiseNaRms],
            OpticalSlots.Settings(values, ChannelName.Dark),
            latchesAlways: AmbientLight.ChangesByItself(values))
    {
        _receiver = new SlotReceiver(values, seed, Format, Grid, mains, new KeyedRandom(seed, "optics.dark_noise"), Settings);
        _noiseCourse = values.Course(OpticsKeys.WhiteNoiseNaRms);
    }

    private DarkSource(DarkSource other)
        : base(other)
    {
        _receiver = other._receiver.Copy();
        _noiseCourse = other._noiseCourse;
        _whiteNa = other._whiteNa;
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is LightSource other)
        {
            _receiver.SlotBefore = other.Light;
            other.ShareRoom(_receiver);
        }
    }

    public override ChannelSource Copy(BodyModel body) => new DarkSource(this);

    protected override void Latch(double seconds)
    {
        _receiver.Latch(seconds, LatchNumber);
        if (MayKnobsHaveChanged)
        {
            _whiteNa = _noiseCourse.Value(seconds);
            _receiver.SetNoise(_whiteNa, 0, 0, Settings);
        }
        else
        {
            _receiver.FollowRoom(Settings);
        }
    }

    protected override void SettingsChanged(in ChannelSettings before, double seconds)
    {
        _receiver.Change(Settings);
        _receiver.SetNoise(_whiteNa, 0, 0, Settings);
    }

    protected override void Make(Span<double> scratch, Span<ushort> status, long firstIndex)
    {
        scratch.Clear();
        _receiver.Contact.Draw(Grid, firstIndex, scratch.Length);
        _receiver.Finish(scratch, status, firstIndex);
    }

    protected override void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex) =>
        _receiver.Convert(analog, codes, status, firstIndex);
}
