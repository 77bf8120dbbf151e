// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pressure;
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Pulse;

/// <summary>Places the pulse of one beat after the other, and finds its landmarks in every light.</summary>
internal sealed class PulsePlanner
{
    private const int Infrared = ChannelName.Infrared - ChannelName.Red;

    // The draw of a beat goes by its time, so that beats before it move none; no two beats are nearer than 0.2 s.
    private const double DrawsPerSecond = 5;

    // A pulse of an earlier beat has died away after this time, whatever its scale [s].
    private const double LongestPulseSeconds = 5;

    private PulseSum _sum = new();

    // Landmarks of the latest ordinary beat, while the shape stays.
    private PulseGuess _guess;
    private (double Stiffness, double Reflection) _shape;
    private readonly BreathingModel _breathing;
    private readonly ArrivalModel _arrival;
    private readonly LightGains _lights;
    private readonly Course _fillingEffect;
    private readonly Course _respiratoryPercent;
    private readonly Course _qrsMs;
    private readonly Course _stiffness;
    private readonly Course _reflection;
    private readonly PulseSite _site;
    private readonly double _heightM;
    private readonly PulseContour _steady;
    private readonly bool _isContourSteady;
    private readonly double _unit;
    private readonly double _steadyFootUnits;
    private readonly PulseGains _steadyGains;
    private readonly int _toldLights;

    /// <summary>Creates a planner.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="breathing">The body's breathing.</param>
    /// <param name="meanRrSeconds">RR interval in the mean [s].</param>
    /// <param name="lastLight">Landmarks are found from red to this light: those of others nobody asks for.</param>
    public PulsePlanner(KeyValues values, ulong seed, BreathingModel breathing, double meanRrSeconds, ChannelName lastLight)
    {
        _toldLights = lastLight - ChannelName.Red + 1;
        _breathing = breathing;
        _arrival = new ArrivalModel(values, seed, new PressureModel(values, seed, breathing));
        _lights = new LightGains(values);
        _fillingEffect = values.Course(PulseKeys.FillingEffect);
        _respiratoryPercent = values.Course(PulseKeys.RespiratoryAmplitudePercent);
        _qrsMs = values.Course(EcgKeys.QrsMs);
        _stiffness = values.Course(PulseKeys.StiffnessIndexMPerS);
        _reflection = values.Course(PulseKeys.ReflectionIndexPercent);
        _site = PulseSite.Named(values[SiteKeys.Site]);
        _heightM = values[SubjectKeys.HeightM];
        _steady = new PulseContour(values);
        _isContourSteady = _stiffness.IsConstant && _reflection.IsConstant;
        PulseLandmarks train = PulseSolver.Steady(_sum, _steady, meanRrSeconds, out double footValue);
        _guess = new PulseGuess(_steady);
        _shape = (_stiffness.BaseValue, _reflection.BaseValue);
        _unit = 1 / train.HeightUnits;
        _steadyFootUnits = footValue * _unit;
        _steadyGains = _lights.At(0);
    }

    /// <summary>An independent copy with the same state.</summary>
    /// <remarks>Its state is copied with it; what it works on must not be shared.</remarks>
    public PulsePlanner Copy()
    {
        var copy = (PulsePlanner)MemberwiseClone();
        copy._sum = new PulseSum();
        return copy;
    }

    /// <summary>Absorbance of a light at the foot of a steady train.</summary>
    public double SteadyFoot(ChannelName light) => _steadyFootUnits * _steadyGains[light - ChannelName.Red];

    /// <summary>Absorbance of a light from foot to peak of a steady train.</summary>
    public double SteadyHeight(ChannelName light) => _steadyGains[light - ChannelName.Red];

    /// <summary>Places the pulse of a beat whose R peak is known.</summary>
    /// <param name="ring">The events.</param>
    /// <param name="id">Number of the beat's event.</param>
    public void Place(BeatRing ring, long id)
    {
        ref BeatView view = ref ring[id];
        double r = view.R.Seconds;
        double rateBpm = 60 / view.RecentRrSeconds;
        double depth = _breathing.Depth(r);
        double onsetToR = r - view.Ecg[EcgBeat.Q].OnsetSeconds;

        // A wide QRS begins early in one place: the ventricle ejects no sooner after its R peak than with a narrow one.
        double conducted = EcgPlan.IsWideClass(view.Class) ? 0.5e-3 * _qrsMs.Value(r) : onsetToR;
        view.Arrival = _arrival.Plan((long)Math.Floor(r * DrawsPerSecond), r, conducted, rateBpm, depth);
        view.Arrival = view.Arrival with { PepFromQrsOnsetSeconds = view.Arrival.PepSeconds + onsetToR };
        view.Gains = _lights.At(r);
        view.SaturationPercent = _lights.Oxygen.SaturationPercent(r);
        view.FillingSeconds = FillingSeconds(ring, id);
        if (!double.IsNaN(view.UsualRrSeconds))
        {
            view.Filling *= PulseFilling.Gain(view.FillingSeconds / view.UsualRrSeconds, _fillingEffect.Value(r));
        }

        view.Arrival = view.Arrival with { Pressure = view.Arrival.Pressure.WithStroke(view.Filling) };
        double breathing = 1 - (_respiratoryPercent.Value(r) * 0.01 * depth);
        double height = view.Filling * breathing * _unit;
        if (height <= 0)
        {
            view.Lights[0] = view.Lights[1] = view.Lights[2] = PulseLandmarks.None;
            return;
        }

        PulseContour contour = _isContourSteady ? _steady : ContourAt(r);
        double scale = PulseContour.Scale(rateBpm);
        double foot = r + view.Arrival.PatSeconds;
        double alive = foot - (PulseSolver.ReachSeconds * scale);
        Gather(ring, id, Infrared, alive);
        PulseLandmarks landmarks = PulseSolver.Place(_sum, foot, contour, scale, height, ref _guess, out view.Pulse);
        if (!landmarks.HasFoot)
        {
            // No place of the pulse has its foot exactly there: the foot jumps from one minimum to another. It lies where it lies.
            landmarks = PulseSolver.Solve(_sum, view.Pulse, contour, scale, _guess);
            view.Arrival = landmarks.HasFoot ? view.Arrival.WithPat(landmarks.FootTangentSeconds - r) : view.Arrival;
        }

        for (int light = 0; light < PulseGains.Count; light++)
        {
            view.Lights[light] = landmarks;
            if (light != Infrared && light < _toldLights && !_lights.IsSteady && !HaveSameMix(ring, id, light, alive))
            {
                Gather(ring, id, light, alive);
                view.Lights[light] = PulseSolver.Solve(_sum, view.Pulse, contour, scale, _guess);
            }
        }
    }

    // Where the shape is another than that of the beat before, its landmarks may lie nearer to what is none of this one: the search begins anew.
    private PulseContour ContourAt(double seconds)
    {
        (double Stiffness, double Reflection) shape = (_stiffness.Value(seconds), _reflection.Value(seconds));
        var contour = new PulseContour(_site, shape.Stiffness, shape.Reflection, _heightM);
        _guess = shape == _shape ? _guess : new PulseGuess(contour);
        _shape = shape;
        return contour;
    }

    // Time in which the heart has filled: what a weak beat before left in it counts too, up to the usual interval.
    private static double FillingSeconds(BeatRing ring, long id)
    {
        ref BeatView view = ref ring[id];
        double own = view.RrSeconds;
        if (double.IsNaN(view.UsualRrSeconds) || own >= view.UsualRrSeconds)
        {
            return own;
        }

        for (long before = id - 1; before >= BodyModel.FirstBeatId && before > id - BodyModel.RingBeats; before--)
        {
            ref BeatView earlier = ref ring[before];
            if (earlier.IsBeat)
            {
                return Math.Min(view.UsualRrSeconds, own + ((1 - Math.Min(1, earlier.Filling)) * earlier.FillingSeconds));
            }
        }

        return own;
    }

    private void Gather(BeatRing ring, long id, int light, double aliveAtSeconds)
    {
        _sum.Clear();
        double own = ring[id].Gains[light];
        double since = aliveAtSeconds - LongestPulseSeconds;
        long oldest = Math.Max(BodyModel.FirstBeatId, id - BodyModel.RingBeats + 1);
        for (long earlier = id - 1; earlier >= oldest; earlier--)
        {
            ref BeatView view = ref ring[earlier];
            if (view.Seconds <= since)
            {
                break;
            }

            if (view.IsBeat)
            {
                _sum.AddEarlier(view.Pulse, view.Gains[light] / own, aliveAtSeconds);
            }
        }
    }

    // Whether every pulse that is still alive stands to the own one as it does in infrared light.
    private static bool HaveSameMix(BeatRing ring, long id, int light, double aliveAtSeconds)
    {
        ref BeatView own = ref ring[id];
        double since = aliveAtSeconds - LongestPulseSeconds;
        long oldest = Math.Max(BodyModel.FirstBeatId, id - BodyModel.RingBeats + 1);
        for (long earlier = id - 1; earlier >= oldest && ring[earlier].Seconds > since; earlier--)
        {
            ref BeatView view = ref ring[earlier];
            double here = view.Gains[light] * own.Gains[Infrared];
            if (view.IsBeat && Math.Abs(here - (own.Gains[light] * view.Gains[Infrared])) > 1e-9 * here)
            {
                return false;
            }
        }

        return true;
    }
}
