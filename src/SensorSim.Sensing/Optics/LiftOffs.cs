// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>When the sensor lifts off the skin: thinned from a candidate in every ten seconds, so that the rate moves none of them.</summary>
/// <remarks>
/// A function of time alone: every slot sees the same lift-offs, each at its own instants. Only a stretch of time without any is remembered.
/// </remarks>
internal sealed class LiftOffs
{
    private const double CellSeconds = 10;
    private const double RampSeconds = 0.1;
    private const double LongestShare = 1.5;

    private readonly EvenCandidates _candidates;
    private readonly double _perSecond;
    private readonly double _meanSeconds;
    private double _quietFromSeconds = double.PositiveInfinity;
    private double _quietUntilSeconds;

    /// <summary>Creates the lift-offs of a scenario.</summary>
    public LiftOffs(KeyValues values, ulong seed)
    {
        _candidates = new EvenCandidates(new KeyedRandom(seed, "optics.lift_off"), CellSeconds);
        _perSecond = values[ContactKeys.LiftOffsPerHour] / 3600;
        _meanSeconds = values[ContactKeys.LiftOffSeconds];
    }

    /// <summary>Whether there are any.</summary>
    public bool IsOn => _perSecond > 0;

    /// <summary>Whether a lift-off lies over a stretch of time.</summary>
    /// <param name="beginSeconds">Body time [s].</param>
    /// <param name="endSeconds">Body time [s].</param>
    public bool Touch(double beginSeconds, double endSeconds)
    {
        if (beginSeconds >= _quietFromSeconds && endSeconds < _quietUntilSeconds)
        {
            return false;
        }

        bool isAny = false;
        long last = _candidates.At(endSeconds);
        for (long k = First(beginSeconds); k <= last; k++)
        {
            if (_candidates.IsEvent(k, _perSecond))
            {
                isAny = true;
                Find(k, out double from, out double to);
                if (to > beginSeconds && from < endSeconds)
                {
                    return true;
                }
            }
        }

        if (!isAny)
        {
            _quietFromSeconds = beginSeconds;
            _quietUntilSeconds = (last + 1) * CellSeconds;
        }

        return false;
    }

    /// <summary>Lowers the contact during lift-offs.</summary>
    /// <param name="contact">Contact, 0 to 1; filled with <paramref name="full"/> when there is a lift-off, else left alone.</param>
    /// <param name="full">Contact outside of lift-offs.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Sample of the first element.</param>
    /// <returns>Whether a lift-off touches the stretch.</returns>
    public bool Draw(Span<double> contact, double full, in SampleGrid grid, long firstIndex)
    {
        double begin = grid.Seconds(firstIndex);
        double end = grid.Seconds(firstIndex + contact.Length - 1);
        if (!Touch(begin, end))
        {
            return false;
        }

        contact.Fill(full);
        long last = _candidates.At(end);
        for (long k = First(begin); k <= last; k++)
        {
            if (_candidates.IsEvent(k, _perSecond))
            {
                Find(k, out double from, out double to);
                Lower(contact, full, grid, firstIndex, from, to);
            }
        }

        return true;
    }

    /// <summary>One that may be used by another thread.</summary>
    public LiftOffs Copy() => (LiftOffs)MemberwiseClone();

    private long First(double seconds) => _candidates.At(seconds - (LongestShare * _meanSeconds));

    private void Find(long candidate, out double from, out double to)
    {
        from = _candidates.Seconds(candidate);
        to = from + (_meanSeconds * (0.5 + _candidates.Uniform(candidate, 0)));
    }

    private static void Lower(Span<double> contact, double full, in SampleGrid grid, long firstIndex, double from, double to)
    {
        long first = Math.Max(firstIndex, grid.FirstAtOrAfter(from));
        long end = Math.Min(firstIndex + contact.Length, grid.FirstAtOrAfter(to));
        for (long n = first; n < end; n++)
        {
            double t = grid.Seconds(n);
            double lifted = SmoothStep.At(Math.Min(t - from, to - t) / RampSeconds);
            ref double value = ref contact[(int)(n - firstIndex)];
            value = Math.Min(value, full * (1 - lifted));
        }
    }
}
