// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Conversion;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>One lit slot (red, infrared or green): light through pulsing tissue, ambient light and noise, converted to codes.</summary>
internal sealed class LightSource : ChannelSource
{
    private readonly ConversionStage _converter;
    private readonly PulseGrid _pulse;
    private readonly Rotation _breathing;
    private readonly AmbientLight _ambient;
    private readonly KeyedRandom _noise;
    private readonly RecordedLight _recorded;
    private readonly OpticalLevels _levels;
    private readonly Course _breathingCourse;
    private readonly Course _artefactCourse;
    private readonly double _height;
    private readonly double _infraredHeight;
    private readonly double _foot;
    private readonly bool _hasArtefact;
    private TissueArtefact _artefact;
    private double _levelNa;
    private double _noiseNa;
    private double _recordedNa;
    private double _breathingUnits;
    private double _artefactRms;

    public LightSource(KeyValues values, ulong seed, BodyModel body, WanderingPhase mains, ChannelName name)
        : base(values, OpticalSlots.Format(values, name), OpticalSlots.Grid(values, name), LiveKeys(name))
    {
        _converter = new ConversionStage(values, seed, Format, Grid);
        _pulse = new PulseGrid(body, Grid, name);
        _breathing = new Rotation(body.Breathing.Phase, 1);
        _ambient = new AmbientLight(values, seed, mains);
        _noise = Noise(seed, name);
        _recorded = new RecordedLight(values, seed);
        _levels = new OpticalLevels(values, name);
        _breathingCourse = values.Course(PulseKeys.RespiratoryBaselinePercent);
        _artefactCourse = values.Course(OpticsKeys.MovementArtefactRatio);
        _height = body.SteadyHeight(name);
        _infraredHeight = body.SteadyHeight(ChannelName.Infrared);
        _foot = body.SteadyFoot(name);
        _hasArtefact = !_artefactCourse.IsConstant || _artefactCourse.BaseValue != 0;
        _artefact = new TissueArtefact(body.Movement, Grid);
    }

    private LightSource(LightSource other, BodyModel body)
        : base(other)
    {
        _converter = other._converter.Copy();
        _pulse = other._pulse.Copy(body);
        _breathing = other._breathing.Copy();
        _ambient = other._ambient.Copy();
        _noise = other._noise;
        _recorded = other._recorded;
        _levels = other._levels;
        _breathingCourse = other._breathingCourse;
        _artefactCourse = other._artefactCourse;
        _height = other._height;
        _infraredHeight = other._infraredHeight;
        _foot = other._foot;
        _hasArtefact = other._hasArtefact;
        _artefact = other._artefact.Copy();
        _levelNa = other._levelNa;
        _noiseNa = other._noiseNa;
        _recordedNa = other._recordedNa;
        _breathingUnits = other._breathingUnits;
        _artefactRms = other._artefactRms;
    }

    public override void Join(ChannelSource earlier)
    {
        if (earlier is LightSource other && _artefact.IsAlike(other._artefact))
        {
            _artefact = other._artefact;
        }
    }

    public override ChannelSource Copy(BodyModel body) => new LightSource(this, body);

    protected override void Latch(double seconds)
    {
        _levelNa = _levels.AtFootNa(seconds);
        _noiseNa = _levels.WhiteNoiseNa(seconds, OpticalLevels.FootToPeakNa(_levelNa, _height));
        _recordedNa = _recorded.RmsNa(seconds, OpticalLevels.FootToPeakNa(_levelNa, _height));
        _breathingUnits = _breathingCourse.Value(seconds) * 0.01;
        _artefactRms = _artefactCourse.Value(seconds) * _infraredHeight / (2 * Math.Sqrt(2.0));
        _ambient.Latch(seconds);
    }

    protected override void Make(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        // Absorbance above that of the steady foot.
        scratch.Fill(-_foot);
        _pulse.Add(scratch, firstIndex);
        if (_breathingUnits != 0)
        {
            _breathing.Add(scratch, Grid, firstIndex, _breathingUnits * _height, 0);
        }

        if (_hasArtefact)
        {
            _artefact.Add(scratch, firstIndex, _artefactRms);
        }

        for (int i = 0; i < scratch.Length; i++)
        {
            scratch[i] = _levelNa * SmallExponential(-scratch[i]);
        }

        _ambient.Add(scratch, Grid, firstIndex);
        _recorded.Add(scratch, Grid, firstIndex, _recordedNa);
        if (_noiseNa != 0)
        {
            _noise.AddNormals(scratch, firstIndex, _noiseNa);
        }

        _converter.Convert(scratch, codes, status, firstIndex);
    }

    private static NumberKey[] LiveKeys(ChannelName name) =>
    [
        .. AmbientKeys.Live, .. RecordedLightKeys.Live, OpticalLevels.LightKey(name), OpticsKeys.WhiteNoiseNaRms, OpticsKeys.WhiteNoiseSnrDb,
        OpticsKeys.MovementArtefactRatio, PulseKeys.RespiratoryBaselinePercent,
    ];

    // Written out: names of sources are read from the code to see that each is there once.
    private static KeyedRandom Noise(ulong seed, ChannelName name) => name switch
    {
        ChannelName.Red => new KeyedRandom(seed, "optics.red_noise"),
        ChannelName.Infrared => new KeyedRandom(seed, "optics.infrared_noise"),
        _ => new KeyedRandom(seed, "optics.green_noise"),
    };

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
