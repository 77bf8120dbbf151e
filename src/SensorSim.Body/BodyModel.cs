// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body;

/// <summary>The body: plans beats one after the other in continuous time, and keeps their truth.</summary>
/// <remarks>
/// Beats are planned when somebody asks for them; the plan does not depend on who asks, or when. A ring holds the latest
/// <see cref="RingBeats"/> beats. Not safe for several threads.
/// </remarks>
public sealed class BodyModel
{
    /// <summary>No wave of a beat begins earlier than this before its R wave [s].</summary>
    public const double LeadSeconds = 0.8;

    /// <summary>Beats that stay available.</summary>
    public const int RingBeats = 64;

    /// <summary>Truth rows that wait for a reader; what comes on top is counted as overflow.</summary>
    public const int TruthCapacity = 8192;

    // Beats before time 0 let pulses and slow averages settle.
    private const double PreRollSeconds = 8;
    private const double QtMemorySeconds = 60;

    private readonly BeatView[] _ring;
    private readonly PulseSum _sum = new();
    private readonly SinusRhythm _rhythm;
    private readonly EcgShape _ecg;
    private readonly PulseContour _contour;
    private readonly KeyedRandom _arrivalDraws;
    private readonly double _arrivalSeconds;
    private readonly double _arrivalSpreadSeconds;
    private readonly double _respiratoryAmplitude;
    private readonly double _pulseUnit;
    private readonly PulseGains _gains;
    private long _laid;
    private long _finished;
    private double _nextRSeconds;
    private double _laggedRrSeconds;

    /// <summary>Creates a body.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public BodyModel(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);
        _ring = new BeatView[RingBeats];
        Truth = new EventRing<TruthEvent>(TruthCapacity);
        Breathing = new BreathingModel(values, seed);
        Movement = new MovementModel(values, seed);
        _rhythm = new SinusRhythm(values, seed, Breathing);
        _ecg = new EcgShape(values);
        _contour = new PulseContour(values);
        _arrivalDraws = new KeyedRandom(seed, "pulse.arrival");
        _arrivalSeconds = values[PulseKeys.ArrivalMs] * 1e-3;
        _arrivalSpreadSeconds = values[PulseKeys.ArrivalSpreadMs] * 1e-3;
        _respiratoryAmplitude = values[PulseKeys.RespiratoryAmplitudePercent] * 0.01;
        double half = values[PulseKeys.PerfusionIndexPercent] * 0.005;
        _gains[1] = PortableMath.Log((1 + half) / (1 - half));
        _gains[0] = _gains[1] * values[PulseKeys.RatioOfRatios];
        _gains[2] = _gains[1];
        _laggedRrSeconds = _rhythm.MeanRrSeconds;
        _nextRSeconds = -PreRollSeconds + (_rhythm.MeanRrSeconds * new KeyedRandom(seed, "heart.first_beat").Uniform(0));
        PulseLandmarks steady = PulseSolver.Steady(_sum, _contour, _rhythm.MeanRrSeconds, out double footValue);
        _pulseUnit = 1 / steady.HeightUnits;
        SteadyFootUnits = footValue * _pulseUnit;
    }

    private BodyModel(BodyModel other)
    {
        _ring = (BeatView[])other._ring.Clone();
        Truth = new EventRing<TruthEvent>(TruthCapacity);
        Breathing = other.Breathing;
        Movement = other.Movement;
        _rhythm = other._rhythm;
        _ecg = other._ecg;
        _contour = other._contour;
        _arrivalDraws = other._arrivalDraws;
        _arrivalSeconds = other._arrivalSeconds;
        _arrivalSpreadSeconds = other._arrivalSpreadSeconds;
        _respiratoryAmplitude = other._respiratoryAmplitude;
        _pulseUnit = other._pulseUnit;
        SteadyFootUnits = other.SteadyFootUnits;
        _gains = other._gains;
        _laid = other._laid;
        _finished = other._finished;
        _nextRSeconds = other._nextRSeconds;
        _laggedRrSeconds = other._laggedRrSeconds;
        for (int i = 0; i < other.Truth.Count; i++)
        {
            Truth.Add(other.Truth[i]);
        }
    }

    /// <summary>Number of the first beat, some seconds before time 0.</summary>
    public const long FirstBeatId = 0;

    /// <summary>Breathing.</summary>
    public BreathingModel Breathing { get; }

    /// <summary>Movement.</summary>
    public MovementModel Movement { get; }

    /// <summary>
    /// Value of the arterial pulse at the foot of a steady train of pulses at the mean rate [pulse units]; one unit is that train's
    /// height from foot to peak.
    /// </summary>
    public double SteadyFootUnits { get; }

    /// <summary>Truth of the beats planned so far, in order of beat; the reader takes it out. Only rows from time 0 on.</summary>
    public EventRing<TruthEvent> Truth { get; }

    /// <summary>A beat, if its R wave lies before a time.</summary>
    /// <param name="id">Number of the beat; not older than the ring holds.</param>
    /// <param name="untilSeconds">The time [s].</param>
    /// <param name="beat">Receives the beat.</param>
    /// <exception cref="InvalidOperationException">The beat has left the ring.</exception>
    public bool TryBeat(long id, double untilSeconds, out BeatView beat)
    {
        while (_finished <= id && (_finished == 0 || R(_finished - 1) < untilSeconds))
        {
            FinishNext();
        }

        if (id < _laid - RingBeats)
        {
            throw new InvalidOperationException($"Beat {id} has left the ring of {RingBeats} beats; the reader fell too far behind.");
        }

        if (_finished <= id || R(id) >= untilSeconds)
        {
            beat = default;
            return false;
        }

        beat = _ring[id % RingBeats];
        return true;
    }

    /// <summary>Plans every beat whose R wave lies before a time, so that its truth can be taken out.</summary>
    /// <param name="untilSeconds">The time [s].</param>
    public void PlanUntil(double untilSeconds)
    {
        while (_finished == 0 || R(_finished - 1) < untilSeconds)
        {
            FinishNext();
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public BodyModel Copy() => new(this);

    private double R(long id) => _ring[id % RingBeats].Ecg[EcgBeat.R].CentreSeconds;

    // A beat can be finished once its successor's ECG is laid: the successor's P wave may reach into it.
    private void FinishNext()
    {
        while (_laid < _finished + 2)
        {
            LayNext();
        }

        long id = _finished;
        ref BeatView beat = ref _ring[id % RingBeats];
        EcgBeat none = default;
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            none[i] = new EcgWave(double.NegativeInfinity, 1, 0);
        }

        EcgBeat before = id > 0 ? _ring[(id - 1) % RingBeats].Ecg : none;
        beat.R = RPeakSolver.Solve(before, beat.Ecg, _ring[(id + 1) % RingBeats].Ecg);
        PlacePulse(ref beat);
        _finished++;
        BodyTruth.Add(Truth, beat, id > 0 ? _ring[(id - 1) % RingBeats].R.Seconds : double.NaN);
    }

    private void LayNext()
    {
        ref BeatView beat = ref _ring[_laid % RingBeats];
        beat = default;
        beat.Id = _laid;
        beat.LaggedRrSeconds = _laggedRrSeconds;
        beat.Ecg = _ecg.Lay(_nextRSeconds, _laggedRrSeconds);
        beat.RrSeconds = _rhythm.RrSeconds(_nextRSeconds);

        // First-order lag on elapsed time.
        double keep = PortableMath.Exp(-beat.RrSeconds / QtMemorySeconds);
        _laggedRrSeconds = (keep * _laggedRrSeconds) + ((1 - keep) * beat.RrSeconds);
        _nextRSeconds += beat.RrSeconds;
        _laid++;
    }

    private void PlacePulse(ref BeatView beat)
    {
        double arrival = _arrivalSeconds + (_arrivalSpreadSeconds * _arrivalDraws.Normal(beat.Id));
        double foot = beat.R.Seconds + arrival;
        double scale = PulseContour.Scale(60 / beat.LaggedRrSeconds);
        double gain = 1 - (_respiratoryAmplitude * Breathing.Depth(beat.R.Seconds));
        GatherEarlier(beat.Id, foot - (PulseSolver.ReachSeconds * scale));
        beat.Gains = _gains;
        beat.Landmarks = PulseSolver.Place(_sum, foot, _contour, scale, gain * _pulseUnit, out beat.Pulse);
    }

    private void GatherEarlier(long id, double aliveAtSeconds)
    {
        _sum.Clear();
        for (long earlier = Math.Max(0, id - PulseSum.Beats); earlier < id; earlier++)
        {
            _sum.AddEarlier(_ring[earlier % RingBeats].Pulse, 1, aliveAtSeconds);
        }
    }
}
