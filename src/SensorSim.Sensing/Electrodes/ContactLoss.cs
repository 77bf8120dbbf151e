// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Random losses of one electrode's contact: exponentially distributed lengths, overlapping ones join.</summary>
/// <param name="random">Its own source of draws.</param>
/// <param name="grid">Sampling instants.</param>
internal struct ContactLoss(KeyedRandom random, SampleGrid grid)
{
    private const double CandidatesPerSecond = 0.5;

    private EventTrain _train = new(random, grid, CandidatesPerSecond, grid.Seconds(0));
    private long _offUntil;

    /// <summary>Whether contact is lost at a sample; asked for forward only.</summary>
    /// <param name="index">The sample.</param>
    /// <param name="limit">First sample that is not asked for before the next latch; above it.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="perSecond">Rate of losses [1/s].</param>
    /// <param name="meanSeconds">Their mean length [s].</param>
    /// <param name="until">Lowered to the first sample after it and before the limit at which the answer may change.</param>
    public bool IsOff(long index, long limit, in SampleGrid grid, double perSecond, double meanSeconds, ref long until)
    {
        while (_train.NextEvent(limit, perSecond) <= index)
        {
            double end = _train.Seconds - (meanSeconds * PortableMath.Log(_train.Uniform()));
            _offUntil = Math.Max(_offUntil, grid.FirstAtOrAfter(end));
            _train.Next();
        }

        until = Math.Min(until, _train.Sample);
        if (index >= _offUntil)
        {
            return false;
        }

        until = Math.Min(until, _offUntil);
        return true;
    }
}
