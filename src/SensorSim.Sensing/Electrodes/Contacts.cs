// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Which electrodes have no contact at each sample: as the scenario says, and by random losses.</summary>
internal sealed class Contacts
{
    private readonly SampleGrid _grid;
    private readonly (long Sample, SampleStatus Off)[] _said;
    private readonly Course _rate;
    private readonly Course _length;
    private readonly bool _isRandom;
    private readonly int _electrodes;
    private int _nextSaid;
    private SampleStatus _saidOff;
    private double _perSecond;
    private double _meanSeconds;
    private ContactLoss _positive;
    private ContactLoss _negative;
    private ContactLoss _third;

    private Contacts(KeyValues values, ulong seed, SampleGrid grid)
    {
        _grid = grid;
        ChoiceCourse off = values.Course(ElectrodeKeys.Off);
        bool hasThird = values[ElectrodeKeys.Third] != "none";
        _saidOff = Electrode(off.First, hasThird);
        _said = [.. off.Changes.Select(c => (LiveLatch.FirstSample(grid, c.AtSeconds), Electrode(c.Word, hasThird)))];
        _rate = values.Course(ElectrodeKeys.ContactLossPerH);
        _length = values.Course(ElectrodeKeys.ContactLossS);
        _isRandom = !_rate.IsAlways(0);
        _electrodes = !_isRandom ? 0 : hasThird ? 3 : 2;
        _positive = new ContactLoss(new KeyedRandom(seed, "electrodes.contact_loss_positive"), grid);
        _negative = new ContactLoss(new KeyedRandom(seed, "electrodes.contact_loss_negative"), grid);
        _third = new ContactLoss(new KeyedRandom(seed, "electrodes.contact_loss_third"), grid);
    }

    /// <summary>The contacts of a scenario; null when they always hold.</summary>
    public static Contacts? Create(KeyValues values, ulong seed, SampleGrid grid) =>
        values.Course(ElectrodeKeys.Off).Words.Any(w => w != "none") || !values.Course(ElectrodeKeys.ContactLossPerH).IsAlways(0)
            ? new Contacts(values, seed, grid)
            : null;

    public void Latch(double seconds)
    {
        _perSecond = _rate.Value(seconds) / 3600;
        _meanSeconds = _length.Value(seconds);
    }

    /// <summary>Electrodes without contact at a sample; asked for forward only.</summary>
    /// <param name="index">The sample.</param>
    /// <param name="limit">First sample that is not asked for before the next latch; above it.</param>
    /// <param name="until">Receives the first sample after it at which this changes, or the limit.</param>
    public SampleStatus Off(long index, long limit, out long until)
    {
        while (_nextSaid < _said.Length && _said[_nextSaid].Sample <= index)
        {
            _saidOff = _said[_nextSaid++].Off;
        }

        until = _nextSaid < _said.Length ? Math.Min(limit, _said[_nextSaid].Sample) : limit;
        SampleStatus off = _saidOff;
        if (_electrodes >= 2)
        {
            off |= _positive.IsOff(index, limit, _grid, _perSecond, _meanSeconds, ref until) ? SampleStatus.LeadOffPositive : SampleStatus.None;
            off |= _negative.IsOff(index, limit, _grid, _perSecond, _meanSeconds, ref until) ? SampleStatus.LeadOffNegative : SampleStatus.None;
        }

        if (_electrodes == 3)
        {
            off |= _third.IsOff(index, limit, _grid, _perSecond, _meanSeconds, ref until) ? SampleStatus.LeadOffThird : SampleStatus.None;
        }

        return off;
    }

    public Contacts Copy() => (Contacts)MemberwiseClone();

    private static SampleStatus Electrode(string word, bool hasThird) => word switch
    {
        "positive" => SampleStatus.LeadOffPositive,
        "negative" => SampleStatus.LeadOffNegative,
        "third" when hasThird => SampleStatus.LeadOffThird,
        _ => SampleStatus.None,
    };
}
