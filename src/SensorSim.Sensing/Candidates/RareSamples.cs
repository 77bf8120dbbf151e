// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Candidates;

/// <summary>Single samples to which something happens, so many in a million.</summary>
/// <remarks>
/// Each stretch of 64 samples from sample 0 on has one candidate at a drawn place, kept with 64 times the wanted share. A higher share adds
/// samples and moves none. The same for every cut and order; copied by value.
/// </remarks>
internal struct RareSamples
{
    private const int Stretch = 64;
    private readonly KeyedRandom _random;
    private KeptCandidates _kept;

    // A range without any: nearly every question lies in it.
    private long _clearFrom;

    /// <summary>After a search that found none: the first sample from the range's begin on that may be one of them.</summary>
    public long ClearUntil { get; private set; }

    /// <summary>Creates the samples.</summary>
    /// <param name="random">Their own source; stretch c has the draws 4 c (kept or not), 4 c + 1 (place) and 4 c + 2 (spare).</param>
    /// <param name="perMillion">How many of a million samples, 0 to 15,625.</param>
    public RareSamples(KeyedRandom random, double perMillion)
    {
        _random = random;
        _kept = new KeptCandidates(random, 0, perMillion * Stretch * 1e-6);
    }

    /// <summary>The first of them in a range of samples.</summary>
    /// <param name="from">First sample of the range, at least 0.</param>
    /// <param name="until">First sample after the range.</param>
    /// <param name="spare">Receives a random word that belongs to the sample.</param>
    /// <returns>Its index, or <paramref name="until"/> when there is none.</returns>
    public long Next(long from, long until, out uint spare)
    {
        if (from >= _clearFrom && until <= ClearUntil)
        {
            spare = 0;
            return until;
        }

        return Find(from, until, out spare);
    }

    // Stretch by stretch, up to what lies at the end of the range or after it.
    private long Find(long from, long until, out uint spare)
    {
        for (long c = from / Stretch; ;)
        {
            c = _kept.NextKnown(c, out bool isKept);
            long index = c * Stretch;
            if (isKept)
            {
                index += _random.Word((4 * c) + 1) % Stretch;
            }

            if (index >= until)
            {
                _clearFrom = from;
                ClearUntil = index;
                spare = 0;
                return until;
            }

            if (isKept && index >= from)
            {
                spare = _random.Word((4 * c) + 2);
                return index;
            }

            c += isKept ? 1 : 0;
        }
    }
}
