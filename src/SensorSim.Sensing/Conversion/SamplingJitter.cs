// SPDX-License-Identifier: MIT
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
    private const int Chunk = 256;

    // Far beyond every converter, so that no difference of two of them can be infinite.
    private const double Ranges = 1e6;

    private readonly KeyedRandom _random;
    private readonly double _steps;
    private readonly double _most;
    private double _before;
    private bool _hasBefore;

    private SamplingJitter(ulong seed, double steps, ChannelFormat format)
    {
        _random = new KeyedRandom(seed, "conversion.jitter_" + "erigdxyz"[(int)format.Name]);
        _steps = steps;
        _most = Ranges * format.UnitPerCode * (1L << format.Bits);
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
            _before = analog[0];
            _hasBefore = true;
        }

        Span<double> steps = stackalloc double[Chunk];
        for (int done = 0; done < analog.Length; done += Chunk)
        {
            Span<double> x = analog.Slice(done, Math.Min(Chunk, analog.Length - done));
            Span<double> d = steps[..x.Length];
            d.Clear();
            _random.AddNormals(d, firstIndex + done, _steps);
            double first = Clamped(x[0]);
            double last = Clamped(x[^1]);
            Move(x, d);
            x[0] = first + (d[0] * (first - _before));
            _before = last;
        }
    }

    // From the end, so that the sample before is still where it was: all but the first.
    private void Move(Span<double> x, ReadOnlySpan<double> d)
    {
        int i = x.Length;
        Vector256<double> most = Vector256.Create(_most);
        for (; i - 4 >= 1; i -= 4)
        {
            Vector256<double> now = Vector256.Min(Vector256.Max(Vector256.Create<double>(x[(i - 4)..]), -most), most);
            Vector256<double> before = Vector256.Min(Vector256.Max(Vector256.Create<double>(x[(i - 5)..]), -most), most);
            (now + (Vector256.Create(d[(i - 4)..]) * (now - before))).CopyTo(x[(i - 4)..]);
        }

        for (i--; i >= 1; i--)
        {
            double now = Clamped(x[i]);
            x[i] = now + (d[i] * (now - Clamped(x[i - 1])));
        }
    }

    private double Clamped(double x) => Math.Min(Math.Max(x, -_most), _most);

    /// <summary>An independent copy with the same state.</summary>
    public SamplingJitter Copy() => (SamplingJitter)MemberwiseClone();
}
