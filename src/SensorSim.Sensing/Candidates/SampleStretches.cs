// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Candidates;

/// <summary>Stretches of samples that something happens to, found one after the other as the samples come.</summary>
/// <remarks>The begins rise and so do the ends; stretches may overlap. Each is found by its own number, so no cut changes them.</remarks>
internal abstract class SampleStretches
{
    /// <summary>First sample after the stretch found last.</summary>
    public long End { get; private set; }

    /// <summary>No stretch that is still to be found begins before this sample: until then nobody looks. Left alone where it is not known.</summary>
    protected long ClearUntil { get; set; }

    private long Begin { get; set; }

    /// <summary>The first sample of a range that lies in a stretch.</summary>
    /// <param name="index">First sample of the range; never before an earlier call's.</param>
    /// <param name="limit">First sample after the range.</param>
    /// <returns>Its index; <paramref name="limit"/> when there is none. Up to <see cref="End"/> the samples after it lie in the stretch too.</returns>
    public long Next(long index, long limit) => limit <= ClearUntil && End <= index ? limit : Find(index, limit);

    /// <summary>An independent copy with the same state.</summary>
    public virtual SampleStretches Copy() => (SampleStretches)MemberwiseClone();

    /// <summary>Looks for the next stretch among the candidates that may begin before a sample.</summary>
    /// <param name="limit">The sample.</param>
    /// <param name="begin">Receives its first sample; it may lie at or after the limit.</param>
    /// <param name="end">Receives the first sample after it, above <paramref name="begin"/>.</param>
    /// <returns>Whether there is one.</returns>
    protected abstract bool TryFind(long limit, out long begin, out long end);

    private long Find(long index, long limit)
    {
        while (End <= index)
        {
            if (limit <= ClearUntil || !TryFind(limit, out long begin, out long end))
            {
                return limit;
            }

            Begin = begin;
            End = end;
        }

        return Math.Min(limit, Math.Max(index, Begin));
    }
}
