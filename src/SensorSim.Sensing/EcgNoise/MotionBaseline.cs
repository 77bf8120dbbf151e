// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>The baseline that moves with the body: a random band from 0.5 to 5 Hz whose size follows how hard the body moves.</summary>
/// <remarks>
/// <para>Keyed normal draws at nodes 50 ms apart, each less the running mean of what came before, m ← m + (1 − ρ)(w − m), ρ = 0.85; joined by cubic
/// B-splines. Spectrum sinc(π f Δ)^8 · ρ²·4 sin²(πfΔ) / |1 − ρ e^(−2πjfΔ)|²: −3 dB at 0.44 and 5.1 Hz, three quarters of it from 0.5 to 5 Hz. The variance is the sum of the nodes'
/// correlations times those of the splines, 151/315, 397/1680, 1/42 and 1/5040 at 0 to 3 nodes (Unser 1999).</para>
/// <para>The size goes in straight lines over 64 samples, from absolute sample to absolute sample.</para>
/// </remarks>
internal sealed class MotionBaseline
{
    /// <summary>Time between nodes [s].</summary>
    public const double NodeSeconds = 0.05;

    private const double Keep = 0.85;

    // 0.85^160 is 5e-12: nothing of the time before is left.
    private const int PreRollNodes = 160;
    private const int Samples = LiveLatch.Samples;
    private static readonly double[] s_correlation = [151.0 / 315, 397.0 / 1680, 1.0 / 42, 1.0 / 5040];
    private static readonly double s_variance = Variance();
    private static readonly double s_scale = 1 / Math.Sqrt(s_variance);
    private readonly KeyedRandom _random;
    private readonly SampleGrid _grid;
    private readonly MotionDrive _drive;
    private readonly double _rms;
    private readonly bool _isConstant;
    private double _a;
    private double _b;
    private double _c;
    private double _d;
    private double _mean;
    private long _latest = long.MinValue;
    private long _segment = long.MinValue;
    private double _sizeFrom;
    private double _sizeTo;

    /// <summary>Creates a baseline.</summary>
    /// <param name="random">Its own source; draw n is node n.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="drive">How hard the body moves.</param>
    /// <param name="power">Power in the reference gait.</param>
    public MotionBaseline(KeyedRandom random, SampleGrid grid, MotionDrive drive, double power)
    {
        _random = random;
        _grid = grid;
        _drive = drive;
        _rms = Math.Sqrt(power);
        _isConstant = drive.IsConstant;
    }

    /// <summary>An independent copy with the same state.</summary>
    public MotionBaseline Copy() => (MotionBaseline)MemberwiseClone();

    /// <summary>Power density at an rms of 1 [1/Hz], one-sided.</summary>
    /// <param name="hertz">Frequency [Hz].</param>
    public static double Density(double hertz)
    {
        Signals.Numerics.PortableMath.SinCosTurns(hertz * NodeSeconds, out _, out double cos);
        double highPass = Keep * Keep * 2 * (1 - cos) / (1 - (2 * Keep * cos) + (Keep * Keep));
        return 2 * NodeSeconds * highPass * Spline(hertz * NodeSeconds) / s_variance;
    }

    /// <summary>Square of the transform of a cubic B-spline: sinc^8.</summary>
    /// <param name="perNode">Frequency × time between nodes.</param>
    public static double Spline(double perNode)
    {
        if (perNode == 0)
        {
            return 1;
        }

        Signals.Numerics.PortableMath.SinCosTurns(0.5 * perNode, out double sin, out _);
        double s = sin / (Math.PI * perNode);
        double s2 = s * s;
        return s2 * s2 * (s2 * s2);
    }

    /// <summary>Adds the baseline.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="scale">Rms in the reference gait of all that the baseline is part of.</param>
    public void Add(Span<double> buffer, long firstIndex, double scale)
    {
        for (int done = 0; done < buffer.Length;)
        {
            long index = firstIndex + done;
            double now = _grid.Seconds(index);
            long node = (long)Math.Floor(now / NodeSeconds);

            // The division rounds: a sample next to a node may seem to lie on its other side.
            node += now >= (node + 1) * NodeSeconds ? 1 : now < node * NodeSeconds ? -1 : 0;
            MoveTo(node);
            long segment = index / Samples;
            SizeOf(segment);
            long end = Math.Min(_grid.FirstAtOrAfter((node + 1) * NodeSeconds), (segment + 1) * Samples);
            int until = (int)Math.Min(buffer.Length, end - firstIndex);
            double c0 = (_a + (4 * _b) + _c) / 6;
            double c1 = (_c - _a) / 2;
            double c2 = (_a - (2 * _b) + _c) / 2;
            double c3 = (_d - _a + (3 * (_b - _c))) / 6;
            double begin = node * NodeSeconds;
            double grows = (_sizeTo - _sizeFrom) / Samples;
            double from = _sizeFrom;
            double step = _grid.StepSeconds;
            double start = _grid.StartSeconds;
            double inSegment = index - (segment * Samples);
            Span<double> target = buffer[done..until];
            int i = 0;
            Vector256<double> lanes = Vector256.Create((double)index) + Vector256.Create(0.0, 1, 2, 3);
            for (; i + 4 <= target.Length; i += 4)
            {
                // The same operations as below.
                Vector256<double> u = (Vector256.Create(start) + (lanes * step) - Vector256.Create(begin)) * (1 / NodeSeconds);
                Vector256<double> place = Vector256.Create(inSegment + i) + Vector256.Create(0.0, 1, 2, 3);
                Vector256<double> size = Vector256.Create(from) + (grows * place);
                Vector256<double> cubic = Vector256.Create(c0) + (u * (Vector256.Create(c1) + (u * (Vector256.Create(c2) + (u * c3)))));
                (Vector256.Create<double>(target[i..]) + (scale * size * cubic)).CopyTo(target[i..]);
                lanes += Vector256.Create(4.0);
            }

            for (; i < target.Length; i++)
            {
                // As the grid has it, written out: sums from anywhere else would differ in the last bit.
                double u = (start + ((index + i) * step) - begin) * (1 / NodeSeconds);
                double size = from + (grows * (inSegment + i));
                target[i] += scale * size * (c0 + (u * (c1 + (u * (c2 + (u * c3))))));
            }

            done = until;
        }
    }

    // Nodes node − 1 to node + 2 stand in a to d.
    private void MoveTo(long node)
    {
        if (_latest == long.MinValue)
        {
            _latest = node - PreRollNodes;
        }

        while (_latest < node + 2)
        {
            _latest++;
            double draw = _random.Normal(_latest);
            _mean += (1 - Keep) * (draw - _mean);
            _a = _b;
            _b = _c;
            _c = _d;
            _d = s_scale * (draw - _mean);
        }
    }

    private void SizeOf(long segment)
    {
        if (_segment == segment)
        {
            return;
        }

        if (_isConstant)
        {
            _sizeFrom = _segment == long.MinValue ? Size(0) : _sizeTo;
            _sizeTo = _sizeFrom;
        }
        else
        {
            _sizeFrom = _segment == segment - 1 ? _sizeTo : Size(_grid.Seconds(segment * Samples));
            _sizeTo = Size(_grid.Seconds((segment + 1) * Samples));
        }

        _segment = segment;
    }

    private double Size(double seconds) => _rms * Math.Sqrt(_drive.Relative(seconds));

    // The filter of a node: ρ on its own draw, −(1 − ρ)ρ^k on the k-th before it.
    private static double Variance()
    {
        double sum = 0;
        double tail = (1 - Keep) * (1 - Keep) * Keep * Keep / (1 - (Keep * Keep));
        double power = 1;
        for (int k = 0; k <= 3; k++)
        {
            double correlation = (k == 0 ? Keep * Keep : -(1 - Keep) * Keep * power) + (tail * power);
            sum += (k == 0 ? 1 : 2) * correlation * s_correlation[k];
            power *= Keep;
        }

        return sum;
    }
}
