// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The dark slot: ambient light and noise, no LED.</summary>
internal sealed class DarkSource : ChannelSource
{
    private readonly ConversionStage _converter;
    private readonly AmbientLight _ambient;
    private readonly KeyedRandom _noise;
    private readonly Course _noiseCourse;
    private double _noiseNa;

    public DarkSource(KeyValues values, ulong seed, WanderingPhase mains)
        : base(values, OpticalSlots.Format(values, ChannelName.Dark), OpticalSlots.Grid(values, ChannelName.Dark), [.. AmbientKeys.Live, OpticsKeys.WhiteNoiseNaRms], latchesAlways: AmbientLight.ChangesByItself(values))
    {
        _converter = new ConversionStage(values, seed, Format, Grid);
        _ambient = new AmbientLight(values, seed, mains);
        _noise = new KeyedRandom(seed, "optics.dark_noise");
        _noiseCourse = values.Course(OpticsKeys.WhiteNoiseNaRms);
    }

    private DarkSource(DarkSource other)
        : base(other)
    {
        _converter = other._converter.Copy();
        _ambient = other._ambient.Copy();
        _noise = other._noise;
        _noiseCourse = other._noiseCourse;
        _noiseNa = other._noiseNa;
    }

    public override ChannelSource Copy(BodyModel body) => new DarkSource(this);

    protected override void Latch(double seconds)
    {
        _ambient.Latch(seconds);
        _noiseNa = _noiseCourse.Value(seconds);
    }

    protected override void Make(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        scratch.Clear();
        _ambient.Add(scratch, Grid, firstIndex);
        if (_noiseNa != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseNa);
        }

        _converter.Convert(scratch, codes, status, firstIndex);
    }
}
