// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>Samples taken beside their instants: each gets δ times the slope between the sample before and itself.</summary>
/// <remarks>
/// δ is one normal draw to a sample. Off by at most |δ| (|δ| + T) / 2 times the largest second derivative (Taylor), T the time between
/// samples; for a sine of f that is less than π f (T + |δ|) of the error itself. Sample 0 has no slope yet and keeps its value.
/// </remarks>
internal sealed class SamplingJitter
{
    // Far beyond every converter, so that no difference of two of them can be infinite.
    private const double Ranges = 1e6;

    private readonly DrawnNormals _steps;
    private readonly double _most;
    private double _before;
    private bool _hasBefore;

    private SamplingJitter(ulong seed, double steps, ChannelFormat format)
    {
        _steps = new DrawnNormals(new KeyedRandom(seed, "conversion.jitter_" + "erigdxyz"[(int)format.Name]), steps);
        _most = Ranges * format.UnitPerCode * (1L << format.Bits);
    }

    private SamplingJitter(SamplingJitter other)
    {
        _steps = other._steps.Copy();
        _most = other._most;
        _before = other._before;
        _hasBefore = other._hasBefore;
    }

    /// <summary>The jitter of a channel, or null when it has none.</summary>
    public static SamplingJitter? Of(KeyValues values, ulong seed, ChannelFormat format, SampleGrid grid)
    {
        double seconds = values[ConversionKeys.Of(format.Name).JitterUsRms] * 1e-6;
        return seconds > 0 ? new SamplingJitter(seed, seconds / grid.StepSeconds, format) : null;
    }

    /// <summary>Moves samples off their instants.</summary>
    /// <param name="analog">The samples.</param>
    /// <param name="firstIndex">Index of the first one.</param>
    public void Apply(Span<double> analog, long firstIndex)
    {
        if (!_hasBefore && analog.Length > 0)
        {
            _before = Clamped(analog[0]);
            _hasBefore = true;
        }

        Clamp(analog);
        for (int done = 0; done < analog.Length;)
        {
            ReadOnlySpan<double> d = _steps.From(firstIndex + done);
            Span<double> x = analog.Slice(done, Math.Min(d.Length, analog.Length - done));
            double before = _before;
            _before = x[^1];
            Move(x, before, d);
            done += x.Length;
        }
    }

    // From the last one to the first: the sample before still stands where it was.
    private static void Move(Span<double> x, double before, ReadOnlySpan<double> d)
    {
        ref double first = ref MemoryMarshal.GetReference(x);
        ref double steps = ref MemoryMarshal.GetReference(d);
        nuint end = (nuint)(uint)x.Length;
        while (end > (nuint)Vector256<double>.Count)
        {
            end -= (nuint)Vector256<double>.Count;
            Vector256<double> here = Vector256.LoadUnsafe(ref first, end);
            (here + (Vector256.LoadUnsafe(ref steps, end) * (here - Vector256.LoadUnsafe(ref first, end - 1)))).StoreUnsafe(ref first, end);
        }

        if (end == (nuint)Vector256<double>.Count)
        {
            var here = Vector256.LoadUnsafe(ref first);
            Vector256<double> there = Vector256.Shuffle(here, Vector256.Create(0L, 0, 1, 2)).WithElement(0, before);
            (here + (Vector256.LoadUnsafe(ref steps) * (here - there))).StoreUnsafe(ref first);
            return;
        }

        for (int i = (int)end - 1; i >= 0; i--)
        {
            double here = x[i];
            x[i] = here + (d[i] * (here - (i > 0 ? x[i - 1] : before)));
        }
    }

    // Nearly always all of them lie within.
    private void Clamp(Span<double> x)
    {
        const int Together = 16;
        ref double first = ref MemoryMarshal.GetReference(x);
        var most = Vector256.Create(_most);
        Vector256<double> isOutside = Vector256<double>.Zero;
        int sixteens = x.Length & -Together;
        for (nuint i = 0; i < (nuint)(uint)sixteens; i += Together)
        {
            isOutside |= (Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref first, i)), most)
                    | Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref first, i + 4)), most))
                | (Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref first, i + 8)), most)
                    | Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref first, i + 12)), most));
        }

        int fours = x.Length & -Vector256<double>.Count;
        for (nuint i = (nuint)(uint)sixteens; i < (nuint)(uint)fours; i += (nuint)Vector256<double>.Count)
        {
            isOutside |= Vector256.GreaterThan(Vector256.Abs(Vector256.LoadUnsafe(ref first, i)), most);
        }

        bool areClamped = isOutside.ExtractMostSignificantBits() != 0;
        for (int i = areClamped ? 0 : fours; i < x.Length; i++)
        {
            x[i] = Clamped(x[i]);
        }
    }

    // As Math.Min and Math.Max of numbers, in a comparison each.
    private double Clamped(double x) => x > _most ? _most : x < -_most ? -_most : x;

    /// <summary>An independent copy with the same state.</summary>
    public SamplingJitter Copy() => new(this);
}
