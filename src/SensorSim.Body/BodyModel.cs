// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body;

/// <summary>The body: plans the events of the heart one after the other in continuous time, and keeps their truth.</summary>
/// <remarks>
/// <para>Events are planned when somebody asks for them; the plan does not depend on who asks, or when. A ring holds the latest
/// <see cref="RingBeats"/> events. Not safe for several threads.</para>
/// <para>An event goes through three stages: laid (its ECG waves stand), finished (its R peak and pulse are solved, once every event whose
/// waves may reach its QRS is laid), told (its truth is written, once the next pulse is known, which may hide the notch).</para>
/// </remarks>
public sealed class BodyModel
{
    /// <summary>No wave of an event begins earlier than this before its time [s].</summary>
    public const double LeadSeconds = 1.2;

    /// <summary>Events that stay available.</summary>
    public const int RingBeats = 256;

    /// <summary>Truth rows that wait for a reader; what comes on top is counted as overflow.</summary>
    public const int TruthCapacity = 32768;

    /// <summary>Number of the first event, some seconds before time 0.</summary>
    public const long FirstBeatId = 0;

    // Beats before time 0 let pulses and slow averages settle.
    private const double PreRollSeconds = 8;

    // No wave of the ECG ends later than this after its R wave; waves of events within the lead after that may reach it.
    private const double WavesReachSeconds = 1.3;

    // No landmark of a pulse lies later than this after its R wave.
    private const double PulseReachSeconds = 2.5;

    private readonly BeatRing _ring;
    private readonly RhythmEngine _rhythm;
    private readonly EcgPlanner _ecg;
    private readonly PulsePlanner _pulse;
    private readonly ChannelName _lastLight;
    private long _laid;
    private long _finished;
    private long _told;

    /// <summary>Creates a body.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="hasGreen">Whether truth has rows of green light too; nothing else depends on it.</param>
    public BodyModel(KeyValues values, ulong seed, bool hasGreen = false)
    {
        ArgumentNullException.ThrowIfNull(values);
        _lastLight = hasGreen ? ChannelName.Green : ChannelName.Infrared;
        _ring = new BeatRing();
        Truth = new EventRing<TruthEvent>(TruthCapacity);
        Breathing = new BreathingModel(values, seed);
        Movement = new MovementModel(values, seed);
        Activity = new EcgActivity(values, seed);
        _rhythm = new RhythmEngine(values, seed, Breathing, Activity.Atrial, -PreRollSeconds);
        _ecg = new EcgPlanner(values, Breathing, Activity, _rhythm.MeanRrSeconds);
        _pulse = new PulsePlanner(values, seed, Breathing, _rhythm.MeanRrSeconds, _lastLight);
    }

    private BodyModel(BodyModel other)
    {
        _lastLight = other._lastLight;
        _ring = other._ring.Copy();
        Truth = other.Truth.Copy();
        Breathing = other.Breathing;
        Movement = other.Movement;
        Activity = other.Activity;
        _rhythm = other._rhythm.Copy();
        _ecg = other._ecg.Copy();
        _pulse = other._pulse.Copy();
        _laid = other._laid;
        _finished = other._finished;
        _told = other._told;
    }

    /// <summary>Breathing.</summary>
    public BreathingModel Breathing { get; }

    /// <summary>Movement.</summary>
    public MovementModel Movement { get; }

    /// <summary>What in the ECG follows no beat.</summary>
    internal EcgActivity Activity { get; }

    /// <summary>
    /// Absorbance of a light at the foot of a steady train of pulses at the first values of all knobs, above that without any pulse
    /// [natural logarithm, no unit].
    /// </summary>
    /// <param name="light">Red, infrared or green.</param>
    public double SteadyFoot(ChannelName light) => _pulse.SteadyFoot(light);

    /// <summary>Absorbance from foot to peak of that train [natural logarithm, no unit].</summary>
    /// <param name="light">Red, infrared or green.</param>
    public double SteadyHeight(ChannelName light) => _pulse.SteadyHeight(light);

    /// <summary>Truth of the events told so far, in order of event; the reader takes it out. Only rows from time 0 on.</summary>
    public EventRing<TruthEvent> Truth { get; }

    /// <summary>An event, if it lies before a time.</summary>
    /// <param name="id">Number of the event; not older than the ring holds.</param>
    /// <param name="untilSeconds">The time [s].</param>
    /// <param name="beat">Receives the event.</param>
    /// <exception cref="InvalidOperationException">The event has left the ring.</exception>
    public bool TryBeat(long id, double untilSeconds, out BeatView beat)
    {
        bool hasBeat = HasBeat(id, untilSeconds);
        beat = hasBeat ? Beat(id) : default;
        return hasBeat;
    }

    /// <summary>Whether an event lies before a time; it is planned then.</summary>
    /// <param name="id">Number of the event; not older than the ring holds.</param>
    /// <param name="untilSeconds">The time [s].</param>
    /// <exception cref="InvalidOperationException">The event has left the ring.</exception>
    public bool HasBeat(long id, double untilSeconds)
    {
        while (id >= _finished && TryFinishNext(untilSeconds))
        {
        }

        if (id < _laid - RingBeats)
        {
            throw new InvalidOperationException($"Event {id} has left the ring of {RingBeats} events; the reader fell too far behind.");
        }

        return id < _finished && _ring[id].Seconds < untilSeconds;
    }

    /// <summary>An event that <see cref="HasBeat"/> has, where it stands: events are large, and most questions are about none.</summary>
    /// <param name="id">Number of the event.</param>
    public ref readonly BeatView Beat(long id) => ref _ring[id];

    /// <summary>Tells the truth of every event before a time.</summary>
    /// <param name="untilSeconds">The time [s].</param>
    public void PlanUntil(double untilSeconds)
    {
        // Told on the way: a plan over hours would else run over the ring.
        while (TryFinishNext(untilSeconds + PulseReachSeconds))
        {
            TellUntil(Math.Min(untilSeconds, _ring[_finished - 1].Seconds - PulseReachSeconds));
        }

        TellUntil(untilSeconds);
    }

    /// <summary>An independent copy with the same state.</summary>
    public BodyModel Copy() => new(this);

    private void TellUntil(double untilSeconds)
    {
        while (_told < _finished && _ring[_told].Seconds < untilSeconds)
        {
            BodyTruth.Add(Truth, _ring, _told, _finished, _lastLight);
            _told++;
        }
    }

    // The next event that lies before a time, once every event whose waves may reach it is laid.
    private bool TryFinishNext(double untilSeconds)
    {
        while (_finished == _laid && _rhythm.HorizonSeconds < untilSeconds)
        {
            LayNext();
        }

        if (_finished == _laid || _ring[_finished].Seconds >= untilSeconds)
        {
            return false;
        }

        double reach = _ring[_finished].Seconds + WavesReachSeconds + LeadSeconds;
        while (_rhythm.HorizonSeconds < reach)
        {
            LayNext();
        }

        _ecg.Finish(_ring, _finished, reach);
        if (_ring[_finished].IsBeat)
        {
            _pulse.Place(_ring, _finished);
        }

        _finished++;
        return true;
    }

    private void LayNext()
    {
        if (_rhythm.TryNext(out HeartEvent item))
        {
            _ecg.Lay(item, ref _ring[_laid], _laid);
            _laid++;
        }
    }
}
