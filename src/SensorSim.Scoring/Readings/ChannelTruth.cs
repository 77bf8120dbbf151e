// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>What truth has told lately that readings are compared with.</summary>
internal sealed class ChannelTruth
{
    private const int ChannelCount = 8;

    // From R peak to foot where no pulse has told it yet.
    private const long UsualArrivalNs = 250_000_000;

    private readonly int _capacity;
    private readonly BeatValues?[] _arrivalOfBeat = new BeatValues?[ChannelCount];
    private readonly TimedValues?[] _arrivals = new TimedValues?[ChannelCount];
    private readonly TimedValues?[] _perfusion = new TimedValues?[ChannelCount];
    private readonly TruthBeats?[] _pulses = new TruthBeats?[ChannelCount];
    private readonly long[] _lastArrivalNs = new long[ChannelCount];
    private int _firstRoom = Room.First;

    public ChannelTruth(int capacity)
    {
        _capacity = capacity;
        Beats = new TruthBeats(capacity, _firstRoom);
        Saturation = new TimedValues(capacity, _firstRoom);
        Respiration = new TimedValues(capacity, _firstRoom);
        Systolic = new TimedValues(capacity, _firstRoom);
        Diastolic = new TimedValues(capacity, _firstRoom);
        Array.Fill(_lastArrivalNs, UsualArrivalNs);
    }

    /// <summary>R peaks.</summary>
    public TruthBeats Beats { get; }

    /// <summary>Oxygen saturation of each beat, at its R peak; one body, one saturation.</summary>
    public TimedValues Saturation { get; }

    /// <summary>Systolic pressure of each beat, at its R peak; one body, one pressure.</summary>
    public TimedValues Systolic { get; }

    /// <summary>Diastolic pressure of each beat, at its R peak.</summary>
    public TimedValues Diastolic { get; }

    /// <summary>Breathing rate; truth of a scenario has no such rows, whoever knows it may add some.</summary>
    public TimedValues Respiration { get; }

    /// <summary>Makes room before the first truth of a channel comes.</summary>
    public void Prepare(ChannelName channel, bool isEcg)
    {
        _arrivalOfBeat[(int)channel] ??= new BeatValues(_capacity, _firstRoom);
        _arrivals[(int)channel] ??= new TimedValues(_capacity, _firstRoom);
        if (!isEcg)
        {
            _pulses[(int)channel] ??= new TruthBeats(_capacity, _firstRoom);
            _perfusion[(int)channel] ??= new TimedValues(_capacity, _firstRoom);
        }
    }

    /// <summary>Takes all the room that truth will ever need here; channels whose first truth comes later take theirs with it.</summary>
    public void Reserve()
    {
        _firstRoom = _capacity;
        Beats.Reserve();
        Saturation.Reserve();
        Systolic.Reserve();
        Diastolic.Reserve();
        Respiration.Reserve();
        for (int channel = 0; channel < ChannelCount; channel++)
        {
            _arrivalOfBeat[channel]?.Reserve();
            _arrivals[channel]?.Reserve();
            _perfusion[channel]?.Reserve();
            _pulses[channel]?.Reserve();
        }
    }

    public void Add(in TruthEvent truth)
    {
        int channel = (int)truth.Channel;
        switch (truth.Kind)
        {
            case MarkKind.RPeak when truth.Channel == ChannelName.Ecg:
                Beats.Add(truth.TimeNs, truth.BeatId, truth.Flags);
                break;
            case MarkKind.PulseFootTangent when truth.Channel != ChannelName.Ecg:
                (_pulses[channel] ??= new TruthBeats(_capacity, _firstRoom)).Add(truth.TimeNs, truth.BeatId, truth.Flags);
                break;
            case MarkKind.NoPulse when truth.Channel != ChannelName.Ecg:
                // A heart beat all the same: it stands where its foot would.
                (_pulses[channel] ??= new TruthBeats(_capacity, _firstRoom)).Add(truth.TimeNs + _lastArrivalNs[channel], truth.BeatId, truth.Flags);
                break;
            case MarkKind.PatMs when double.IsFinite(truth.Value):
                (_arrivalOfBeat[channel] ??= new BeatValues(_capacity, _firstRoom)).Add(truth.BeatId, truth.Value);
                (_arrivals[channel] ??= new TimedValues(_capacity, _firstRoom)).Add(truth.TimeNs, truth.Value);
                _lastArrivalNs[channel] = (long)(truth.Value * 1e6);
                break;
            case MarkKind.Spo2Percent when double.IsFinite(truth.Value):
                Saturation.Add(truth.TimeNs, truth.Value);
                break;
            case MarkKind.SystolicMmhg when double.IsFinite(truth.Value):
                Systolic.Add(truth.TimeNs, truth.Value);
                break;
            case MarkKind.DiastolicMmhg when double.IsFinite(truth.Value):
                Diastolic.Add(truth.TimeNs, truth.Value);
                break;
            case MarkKind.PerfusionIndexPercent when double.IsFinite(truth.Value):
                (_perfusion[channel] ??= new TimedValues(_capacity, _firstRoom)).Add(truth.TimeNs, truth.Value);
                break;
            case MarkKind.RespirationRateBpm when double.IsFinite(truth.Value):
                Respiration.Add(truth.TimeNs, truth.Value);
                break;
            default:
                break;
        }
    }

    /// <summary>Heart beats as a channel shows them: R peaks on the ECG, feet by tangents in the light; R peaks where truth has no feet.</summary>
    public TruthBeats BeatsOf(ChannelName channel) => _pulses[(int)channel] is { Total: > 0 } pulses ? pulses : Beats;

    /// <summary>Arrival time of each beat; null when truth has none.</summary>
    public BeatValues? ArrivalOfBeat(ChannelName channel) => _arrivalOfBeat[(int)channel];

    /// <summary>Arrival times in order of time; null when truth has none.</summary>
    public TimedValues? Arrivals(ChannelName channel) => _arrivals[(int)channel] is { Total: > 0 } own ? own : _arrivals[(int)ChannelName.Ecg];

    /// <summary>Perfusion indices of the beats; null when truth has none.</summary>
    public TimedValues? Perfusion(ChannelName channel) => _perfusion[(int)channel];
}
