// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>The events of the heart one after the other: beats and P waves that are not conducted, whatever the rhythm.</summary>
internal sealed class RhythmEngine
{
    private readonly ChoiceCourse _rhythm;
    private readonly RhythmSource[] _sources;
    private readonly RhythmState _state;

    /// <summary>Creates the events of a heart.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="breathing">Breathing of the body.</param>
    /// <param name="atria">Flutter waves.</param>
    /// <param name="startSeconds">First beats lie within one interval from here [s].</param>
    public RhythmEngine(KeyValues values, ulong seed, BreathingModel breathing, AtrialActivity atria, double startSeconds)
    {
        ArgumentNullException.ThrowIfNull(values);
        _rhythm = values.Course(HeartKeys.Rhythm);
        var clock = new SinusClock(new Variability(values, seed, breathing));
        _sources = new RhythmSource[_rhythm.Changes.Count + 1];
        for (int i = 0; i < _sources.Length; i++)
        {
            _sources[i] = Source(_rhythm.Word(i), values, seed, clock, atria);
        }

        _state = new RhythmState();
        double mean = clock.MeanRrSeconds(startSeconds);
        double first = startSeconds + (mean * new KeyedRandom(seed, "heart.first_beat").Uniform(0));
        _state.Begin(first - mean);
        _state.HorizonSeconds = first;
        MeanRrSeconds = mean;
    }

    private RhythmEngine(RhythmEngine other)
    {
        _rhythm = other._rhythm;
        _sources = other._sources;
        _state = other._state.Copy();
        MeanRrSeconds = other.MeanRrSeconds;
    }

    /// <summary>Mean interval of the heart rate at the start [s].</summary>
    public double MeanRrSeconds { get; }

    /// <summary>Every event before this time has been taken out [s].</summary>
    public double HorizonSeconds => _state.IsEmpty ? _state.HorizonSeconds : Math.Min(_state.HorizonSeconds, _state.FirstSeconds);

    /// <summary>Takes out the next event, if there is one yet; else moves the horizon on.</summary>
    /// <param name="item">Receives the event.</param>
    /// <returns>Whether there was one.</returns>
    public bool TryNext(out HeartEvent item)
    {
        if (_state.TryTake(out item))
        {
            return true;
        }

        int stretch = _rhythm.StretchAt(_state.HorizonSeconds);
        if (stretch != _state.Stretch)
        {
            double from = stretch == 0 ? _state.HorizonSeconds : _rhythm.Changes[stretch - 1].AtSeconds;
            _state.Stretch = stretch;
            _sources[stretch].Begin(_state, from);
            _state.IsSinusRunning = _sources[stretch].KeepsSinus;
        }
        else
        {
            _sources[stretch].Step(_state);
        }

        // What comes next in this rhythm may lie beyond its end: from there on the next rhythm decides.
        double end = stretch < _rhythm.Changes.Count ? _rhythm.Changes[stretch].AtSeconds : double.PositiveInfinity;
        _state.HorizonSeconds = Math.Min(_state.HorizonSeconds, end);
        return _state.TryTake(out item);
    }

    /// <summary>An independent copy with the same state.</summary>
    public RhythmEngine Copy() => new(this);

    private static RhythmSource Source(string word, KeyValues values, ulong seed, SinusClock clock, AtrialActivity atria) => word switch
    {
        "sinus" => new SinusSource(values, seed, clock),
        "atrial_fibrillation" => new FibrillationSource(values, seed),
        "atrial_flutter" => new FlutterSource(values, seed, atria),
        "second_degree_block_type_1" => new BlockSource(values, clock, isGrowing: true),
        "second_degree_block_type_2" => new BlockSource(values, clock, isGrowing: false),
        "third_degree_block" => DissociatedSource.Block(values, seed, clock),
        "ventricular_tachycardia" => DissociatedSource.Tachycardia(values, seed, clock),
        "paced" => new PacedSource(values),
        "scripted" => new ScriptedSource(values),
        _ => new SilentSource(),
    };
}
