// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The dark slot: ambient light and noise, no LED.</summary>
internal sealed class DarkSource : ChannelSource
{
    private readonly SampleGrid _grid;
    private readonly Converter _converter;
    private readonly AmbientLight _ambient;
    private readonly KeyedRandom _noise;
    private readonly double _noiseNa;

    public DarkSource(KeyValues values, ulong seed, WanderingPhase mains, ChannelFormat format, SampleGrid grid)
    {
        Format = format;
        _grid = grid;
        _converter = new Converter(format);
        _ambient = new AmbientLight(values, seed, mains);
        _noise = new KeyedRandom(seed, "optics.dark_noise");
        _noiseNa = values[OpticsKeys.WhiteNoiseNaRms];
    }

    private DarkSource(DarkSource other)
    {
        Format = other.Format;
        _grid = other._grid;
        _converter = other._converter;
        _ambient = other._ambient.Copy();
        _noise = other._noise;
        _noiseNa = other._noiseNa;
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    public override void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        scratch.Clear();
        _ambient.Add(scratch, _grid, firstIndex);
        if (_noiseNa != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseNa);
        }

        _converter.Convert(scratch, codes, status);
    }

    public override ChannelSource Copy(BodyModel body) => new DarkSource(this);
}
