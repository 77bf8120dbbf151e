// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>One lit slot (red or infrared): light through pulsing tissue, ambient light and noise, converted to codes.</summary>
internal sealed class LightSource : ChannelSource
{
    private readonly SampleGrid _grid;
    private readonly Converter _converter;
    private readonly PulseGrid _pulse;
    private readonly Rotation _breathing;
    private readonly AmbientLight _ambient;
    private readonly KeyedRandom _noise;
    private readonly double _levelNa;
    private readonly double _height;
    private readonly double _foot;
    private readonly double _breathingUnits;
    private readonly double _noiseNa;
    private readonly double _artefactRms;
    private TissueArtefact _artefact;

    public LightSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains, ChannelFormat format, SampleGrid grid)
    {
        Format = format;
        _grid = grid;
        _converter = new Converter(format);
        bool isRed = format.Name == ChannelName.Red;
        _levelNa = OpticalLevels.AtFootNa(values, format.Name);
        _height = body.SteadyHeight(format.Name);
        _foot = body.SteadyFoot(format.Name);
        _breathingUnits = values[PulseKeys.RespiratoryBaselinePercent] * 0.01;
        _noiseNa = OpticalLevels.WhiteNoiseNa(values, OpticalLevels.FootToPeakNa(_levelNa, _height));
        _noise = new KeyedRandom(seed, isRed ? "optics.red_noise" : "optics.infrared_noise");
        _pulse = new PulseGrid(body, grid, format.Name);
        _breathing = new Rotation(body.Breathing.Phase, 1);
        _artefactRms = values[OpticsKeys.MovementArtefactRatio] * body.SteadyHeight(ChannelName.Infrared) / (2 * Math.Sqrt(2.0));
        _artefact = new TissueArtefact(body.Movement, grid);
        _ambient = new AmbientLight(values, seed, mains);
    }

    private LightSource(LightSource other, BodyModel body)
    {
        Format = other.Format;
        _grid = other._grid;
        _converter = other._converter;
        _levelNa = other._levelNa;
        _height = other._height;
        _foot = other._foot;
        _breathingUnits = other._breathingUnits;
        _noiseNa = other._noiseNa;
        _noise = other._noise;
        _pulse = other._pulse.Copy(body);
        _breathing = other._breathing.Copy();
        _artefactRms = other._artefactRms;
        _artefact = other._artefact.Copy();
        _ambient = other._ambient.Copy();
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    public override void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        // Absorbance above that of the steady foot.
        scratch.Fill(-_foot);
        _pulse.Add(scratch, firstIndex);
        if (_breathingUnits != 0)
        {
            _breathing.Add(scratch, _grid, firstIndex, _breathingUnits * _height, 0);
        }

        _artefact.Add(scratch, firstIndex, _artefactRms);
        for (int i = 0; i < scratch.Length; i++)
        {
            scratch[i] = _levelNa * SmallExponential(-scratch[i]);
        }

        _ambient.Add(scratch, _grid, firstIndex);
        if (_noiseNa != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseNa);
        }

        _converter.Convert(scratch, codes, status);
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is LightSource other && _artefact.IsAlike(other._artefact))
        {
            _artefact = other._artefact;
        }
    }

    public override ChannelSource Copy(BodyModel body) => new LightSource(this, body);

    // Absorbance changes are small: a Taylor polynomial of degree 8 is exact to 1e-9 up to 0.4.
    private static double SmallExponential(double x)
    {
        if (Math.Abs(x) > 0.4)
        {
            return PortableMath.Exp(x);
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
}
