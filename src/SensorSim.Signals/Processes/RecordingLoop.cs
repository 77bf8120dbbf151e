// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Recorded noise as an endless loop of mean 0 and rms 1, to be read at any time. Immutable, and safe for several threads.</summary>
/// <remarks>
/// <para>Seam: the last second, at most a quarter of the recording, is laid over the first; cosine and sine of a quarter turn as weights keep
/// the power where both are uncorrelated (equal-power crossfade, textbook). For a channel that is slower than the recording a low-pass comes
/// first: windowed sinc, −6 dB at 0.45 of the channel's rate, so that nothing folds.</para>
/// <para>Between values: cubic convolution (Keys, IEEE Trans ASSP 29:1153, 1981, a = −½), continuous in the first derivative. The mean square of
/// what it draws, over all times, is Σ r[k] c[k] with r the correlation of the loop's values and c that of the kernel;
/// the values are divided by its root. No draw is measured.</para>
/// </remarks>
public sealed class RecordingLoop
{
    // Places are rounded: to a thousandth of a value even after centuries.
    private const double Margin = 1e-3;
    private const double TwoTo52 = 4503599627370496.0;

    private readonly double[] _values;
    private readonly Lazy<double[]> _spectrum;

    internal RecordingLoop(NoiseRecording recording, double channelRateHz)
    {
        ChannelRateHz = channelRateHz;
        RateHz = recording.RateHz;
        double[] loop = LoopValues.Of(recording, channelRateHz);
        Length = loop.Length;

        // One value before and two after, so that the four neighbours of any place stand together.
        _values = [loop[^1], .. loop, loop[0], loop[1]];
        _spectrum = new Lazy<double[]>(() => PowerSpectrum.Of(loop));
    }

    /// <summary>Rate of the recording [Hz].</summary>
    public double RateHz { get; }

    /// <summary>Rate of the channel [Hz].</summary>
    public double ChannelRateHz { get; }

    /// <summary>Values in the loop.</summary>
    public int Length { get; }

    /// <summary>Adds the loop to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="startShare">Place in the loop at time 0, 0 to 1.</param>
    /// <param name="rms">Root mean square.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double startShare, double rms)
    {
        double length = Length;
        var places = new Places((startShare * length) + (grid.StartSeconds * RateHz), grid.StepSeconds * RateHz);

        // Where the present round of the loop begins. Places are at least as coarse as whole rounds, so every difference with one is exact.
        double round = length * (Math.Floor(places.Of(firstIndex) / length) - 1);
        for (int done = 0; done < buffer.Length;)
        {
            long index = firstIndex + done;
            while (places.Of(index) - round >= length)
            {
                round += length;
            }

            int count = InRound(places, index, buffer.Length - done, round, length);
            AddRound(buffer.Slice(done, count), _values, places, index, round, rms);
            done += count;
        }
    }

    // How many samples from one that lies in a round on lie in it.
    private static int InRound(in Places places, long index, int count, double round, double length)
    {
        if (places.Of(index + count - 1) - round < length)
        {
            return count;
        }

        // By a quotient, which is rounded, and then by the places themselves.
        int guess = (int)Math.Max(1, Math.Min(count, Math.Ceiling((length - (places.Of(index) - round)) / places.Step)));
        while (places.Of(index + guess - 1) - round >= length)
        {
            guess--;
        }

        while (places.Of(index + guess) - round < length)
        {
            guess++;
        }

        return guess;
    }

    // Samples of one round: fours, and the rest by the same operations.
    private static void AddRound(Span<double> buffer, double[] values, in Places places, long firstIndex, double round, double rms)
    {
        int whole = buffer.Length & -Vector256<double>.Count;
        if (whole > 0)
        {
            double first = places.Of(firstIndex) - round;
            double last = places.Of(firstIndex + whole - 1) - round;
            if (AreNeighbours(first, last, whole))
            {
                AddNeighbours(buffer[..whole], values, places, firstIndex, round, rms);
            }
            else
            {
                AddFours(buffer[..whole], values, places, firstIndex, round, rms);
            }
        }

        double half = 0.5 * rms;
        for (int i = whole; i < buffer.Length; i++)
        {
            double within = places.Of(firstIndex + i) - round;
            int k = (int)within;
            double u = within - k;
            double a = values[k];
            double b = values[k + 1];
            double c = values[k + 2];
            double d = values[k + 3];
            double c3 = (3 * (b - c)) + (d - a);
            double c2 = ((a + c) - (b + b)) - c3;
            buffer[i] += (rms * b) + ((half * u) * ((c - a) + (u * (c2 + (u * c3)))));
        }
    }

    // Whether each sample lies between the next two values: places lie on a line, and so does what is beyond the value before them. Near a value it might
    // be rounded up to it.
    private static bool AreNeighbours(double first, double last, int count)
    {
        double firstValue = Math.Floor(first);
        double lastValue = Math.Floor(last);
        double least = Math.Min(first - firstValue, last - lastValue);
        double most = Math.Max(first - firstValue, last - lastValue);
        return lastValue - firstValue == count - 1 && least > Margin && most < 1 - Margin;
    }

    // The usual case where channel and recording have one rate. All places lie in the loop, one value before it and two behind it stand in the array:
    // nothing to check.
    private static void AddNeighbours(Span<double> buffer, double[] values, in Places places, double firstIndex, double round, double rms)
    {
        Vector256<double> index = Vector256.Create(firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var from = Vector256.Create(places.From);
        var step = Vector256.Create(places.Step);
        var four = Vector256.Create(4.0);
        var size = Vector256.Create(rms);
        var half = Vector256.Create(0.5 * rms);
        double k = Math.Floor(places.From + (firstIndex * places.Step) - round);
        Vector256<double> before = Vector256.Create(round + k) + Vector256.Create(0.0, 1, 2, 3);
        ref double to = ref MemoryMarshal.GetReference(buffer);
        ref double value = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(values), (nint)k);
        for (nuint i = 0; i < (nuint)buffer.Length; i += 4)
        {
            Vector256<double> u = (from + (index * step)) - before;
            Put(
                ref Unsafe.Add(ref to, i),
                Vector256.LoadUnsafe(ref value, i),
                Vector256.LoadUnsafe(ref value, i + 1),
                Vector256.LoadUnsafe(ref value, i + 2),
                Vector256.LoadUnsafe(ref value, i + 3),
                u,
                size,
                half);
            index += four;
            before += four;
        }
    }

    private static void AddFours(Span<double> buffer, double[] values, in Places places, double firstIndex, double round, double rms)
    {
        Vector256<double> index = Vector256.Create(firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var from = Vector256.Create(places.From);
        var step = Vector256.Create(places.Step);
        var rounds = Vector256.Create(round);
        var four = Vector256.Create(4.0);
        var size = Vector256.Create(rms);
        var half = Vector256.Create(0.5 * rms);
        ref double to = ref MemoryMarshal.GetReference(buffer);
        ref double first = ref MemoryMarshal.GetArrayDataReference(values);
        for (nuint i = 0; i < (nuint)buffer.Length; i += 4)
        {
            Vector256<double> within = (from + (index * step)) - rounds;
            Vector256<double> floor = Vector256.Floor(within);
            Add(ref Unsafe.Add(ref to, i), ref first, floor, within - floor, size, half);
            index += four;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(
        ref double target, ref double first, Vector256<double> floor, Vector256<double> u, Vector256<double> size, Vector256<double> half)
    {
        // Whole numbers stand in the lower bits of what 2^52 is added to.
        Vector256<long> place = (floor + Vector256.Create(TwoTo52)).AsInt64() & Vector256.Create((long)uint.MaxValue);
        nuint k0 = (nuint)place.GetElement(0);
        nuint k1 = (nuint)place.GetElement(1);
        nuint k2 = (nuint)place.GetElement(2);
        nuint k3 = (nuint)place.GetElement(3);
        if (Avx.IsSupported)
        {
            // The four neighbours of a place stand together: halves of two places side by side, then equal neighbours.
            Vector256<double> lowEven = Vector256.Create(Vector128.LoadUnsafe(ref first, k0), Vector128.LoadUnsafe(ref first, k2));
            Vector256<double> lowOdd = Vector256.Create(Vector128.LoadUnsafe(ref first, k1), Vector128.LoadUnsafe(ref first, k3));
            Vector256<double> highEven = Vector256.Create(Vector128.LoadUnsafe(ref first, k0 + 2), Vector128.LoadUnsafe(ref first, k2 + 2));
            Vector256<double> highOdd = Vector256.Create(Vector128.LoadUnsafe(ref first, k1 + 2), Vector128.LoadUnsafe(ref first, k3 + 2));
            Put(
                ref target,
                Avx.UnpackLow(lowEven, lowOdd),
                Avx.UnpackHigh(lowEven, lowOdd),
                Avx.UnpackLow(highEven, highOdd),
                Avx.UnpackHigh(highEven, highOdd),
                u,
                size,
                half);
        }
        else
        {
            Put(
                ref target,
                Each(ref first, k0, k1, k2, k3),
                Each(ref first, k0 + 1, k1 + 1, k2 + 1, k3 + 1),
                Each(ref first, k0 + 2, k1 + 2, k2 + 2, k3 + 2),
                Each(ref first, k0 + 3, k1 + 3, k2 + 3, k3 + 3),
                u,
                size,
                half);
        }
    }

    // b + u/2 · (c − a + u · (2a − 5b + 4c − d + u · (3(b − c) + d − a))).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(
        ref double target,
        Vector256<double> a,
        Vector256<double> b,
        Vector256<double> c,
        Vector256<double> d,
        Vector256<double> u,
        Vector256<double> size,
        Vector256<double> half)
    {
        Vector256<double> c3 = (3 * (b - c)) + (d - a);
        Vector256<double> c2 = ((a + c) - (b + b)) - c3;
        Vector256<double> value = (size * b) + ((half * u) * ((c - a) + (u * (c2 + (u * c3)))));
        (Vector256.LoadUnsafe(ref target) + value).StoreUnsafe(ref target);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Each(ref double first, nuint k0, nuint k1, nuint k2, nuint k3) => Vector256.Create(
        Unsafe.Add(ref first, k0), Unsafe.Add(ref first, k1), Unsafe.Add(ref first, k2), Unsafe.Add(ref first, k3));

    /// <summary>Share of the power between two frequencies, from the discrete Fourier transform of the loop's values and the kernel's.</summary>
    /// <param name="lowHz">Lower end [Hz].</param>
    /// <param name="highHz">Upper end [Hz]; what lies above half the recording's rate is not counted.</param>
    public double Share(double lowHz, double highHz)
    {
        double[] spectrum = _spectrum.Value;
        int half = spectrum.Length - 1;
        double perBin = RateHz / (2 * half);
        double band = 0;
        for (int k = (int)Math.Ceiling(lowHz / perBin); k <= half && k * perBin < highHz; k++)
        {
            double response = Response(0.5 * k / half);
            band += (k == 0 || k == half ? 1 : 2) * spectrum[k] * response * response;
        }

        // Parseval's theorem; what is drawn has a mean square of 1.
        return band / (2.0 * half * Length);
    }

    // Fourier transform of the kernel at a frequency in parts of the recording's rate, by Simpson's rule over its two pieces.
    private static double Response(double frequency)
    {
        const int Intervals = 16;
        double sum = 0;
        for (int i = 0; i <= 2 * Intervals; i++)
        {
            double t = (double)i / Intervals;
            double kernel = t <= 1 ? 1 + (t * t * ((1.5 * t) - 2.5)) : 2 + (t * (-4 + (t * (2.5 - (0.5 * t)))));
            double weight = i == 0 || i == 2 * Intervals ? 1 : i == Intervals ? 2 : (i & 1) == 1 ? 4 : 2;
            PortableMath.SinCosTurns(frequency * t, out _, out double cos);
            sum += weight * kernel * cos;
        }

        return 2 * sum / (3 * Intervals);
    }

    // Where samples lie in the endless loop: a line over the index.
    private readonly record struct Places(double From, double Step)
    {
        public double Of(long index) => From + (index * Step);
    }
}
