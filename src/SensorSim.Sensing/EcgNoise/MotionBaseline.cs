// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>The baseline that moves with the body: a random band from 0.5 to 5 Hz whose size follows how hard the body moves.</summary>
/// <remarks>
/// <para>Keyed normal draws at nodes 50 ms apart, each less the running mean of what came before, m ← m + (1 − ρ)(w − m), ρ = 0.85; joined by cubic
/// B-splines. Spectrum sinc(π f Δ)^8 · ρ²·4 sin²(πfΔ) / |1 − ρ e^(−2πjfΔ)|²: −3 dB at 0.44 and 5.1 Hz, three quarters of it from 0.5 to 5 Hz. The variance is the sum of the nodes'
/// correlations times those of the splines, 151/315, 397/1680, 1/42 and 1/5040 at 0 to 3 nodes (Unser 1999).</para>
/// <para>The size goes in straight lines over 64 samples, from absolute sample to absolute sample. Samples and draws are made many at a time, each
/// by its own place or number: no cut changes a bit.</para>
/// </remarks>
internal sealed class MotionBaseline
{
    /// <summary>Time between nodes [s].</summary>
    public const double NodeSeconds = 0.05;

    private const double Keep = 0.85;

    // 0.85^160 is 5e-12: nothing of the time before is left.
    private const int PreRollNodes = 160;
    private const int Samples = LiveLatch.Samples;
    private const int LongestStretch = 256;

    // Nodes of a stretch beside those that lie in it, and one for each end that rounds.
    private const int SpareNodes = 6;
    private static readonly double[] s_correlation = [151.0 / 315, 397.0 / 1680, 1.0 / 42, 1.0 / 5040];
    private static readonly double s_variance = Variance();
    private static readonly double s_scale = 1 / Math.Sqrt(s_variance);
    private const int Lanes = 4;
    private const int DrawsTogether = 16;
    private const double PerSecond = 1 / NodeSeconds;
    private readonly KeyedRandom _random;
    private readonly SampleGrid _grid;
    private readonly MotionDrive _drive;
    private readonly double _rms;
    private readonly bool _isConstant;
    private readonly int _longest;

    // Node n stands at n − _firstNode; _endNode is the first that is not there yet.
    private readonly double[] _nodes;
    private readonly double[] _draws = new double[DrawsTogether];
    private readonly double[] _wave = new double[LongestStretch + Lanes - 1];
    private readonly double _perStep;
    private long _firstNode;
    private long _endNode = long.MinValue;
    private long _drawBlock = long.MinValue;
    private double _mean;
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
        _perStep = 1 / grid.StepSeconds;
        _isConstant = drive.IsConstant;

        // Without a change of size the lines are none, and a stretch may be longer.
        _longest = _isConstant ? LongestStretch : Samples;
        _nodes = new double[(int)Math.Ceiling(_longest * grid.StepSeconds / NodeSeconds) + SpareNodes];
    }

    private MotionBaseline(MotionBaseline other)
    {
        _random = other._random;
        _grid = other._grid;
        _drive = other._drive;
        _rms = other._rms;
        _perStep = other._perStep;
        _isConstant = other._isConstant;
        _longest = other._longest;
        _nodes = (double[])other._nodes.Clone();
        _firstNode = other._firstNode;
        _endNode = other._endNode;
        _mean = other._mean;
        _segment = other._segment;
        _sizeFrom = other._sizeFrom;
        _sizeTo = other._sizeTo;
    }

    /// <summary>An independent copy with the same state.</summary>
    public MotionBaseline Copy() => new(this);

    /// <summary>Power density at an rms of 1 [1/Hz], one-sided.</summary>
    /// <param name="hertz">Frequency [Hz].</param>
    public static double Density(double hertz)
    {
        PortableMath.SinCosTurns(hertz * NodeSeconds, out _, out double cos);
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

        PortableMath.SinCosTurns(0.5 * perNode, out double sin, out _);
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
            long place = index % Samples;
            SizeOf(index / Samples);
            int count = (int)Math.Min(buffer.Length - done, _isConstant ? _longest : Samples - place);
            AddStretch(buffer.Slice(done, count), index, scale, place);
            done += count;
        }
    }

    private void AddStretch(Span<double> target, long index, double scale, double place)
    {
        double step = _grid.StepSeconds;
        double start = _grid.StartSeconds;
        double perSample = step * PerSecond;
        double node = Math.Floor((start + (index * step)) * PerSecond);
        MakeNodes((long)node - 1, (long)Math.Floor((start + ((index + target.Length - 1) * step)) * PerSecond) + 2);
        ref double nodes = ref MemoryMarshal.GetArrayDataReference(_nodes);
        ref double values = ref MemoryMarshal.GetArrayDataReference(_wave);
        var toNext = Vector256.Create(perSample);
        var four = Vector256.Create((double)Lanes);
        for (int done = 0; done < target.Length; node++)
        {
            double a = nodes;
            double b = Unsafe.Add(ref nodes, 1);
            double c = Unsafe.Add(ref nodes, 2);
            double d = Unsafe.Add(ref nodes, 3);
            nodes = ref Unsafe.Add(ref nodes, 1);
            var c0 = Vector256.Create((a + (4 * b) + c) * (1.0 / 6));
            var c1 = Vector256.Create((c - a) * 0.5);
            var c2 = Vector256.Create((a - (2 * b) + c) * 0.5);
            var c3 = Vector256.Create((d - a + (3 * (b - c))) * (1.0 / 6));
            int end = (int)Math.Min(target.Length, Reached(node + 1) - index);
            var begin = Vector256.Create((start * PerSecond) - node);
            Vector256<double> lane = Vector256.Create((double)(index + done)) + Vector256.Create(0.0, 1, 2, 3);
            for (nuint i = (nuint)(uint)done; i < (nuint)(uint)end; i += Lanes)
            {
                // Lanes past the next node are overwritten from there on.
                Vector256<double> u = begin + (lane * toNext);
                (c0 + (u * (c1 + (u * (c2 + (u * c3)))))).StoreUnsafe(ref values, i);
                lane += four;
            }

            done = end;
        }

        AddSized(target, scale, place);
    }

    // The first sample at or after a node, by the same operations as the place of each sample.
    private long Reached(double node)
    {
        // Whole numbers as doubles all along: nothing waits for a conversion.
        double start = _grid.StartSeconds;
        double step = _grid.StepSeconds;
        double index = Math.Ceiling(((node * NodeSeconds) - start) * _perStep);
        while ((start + (index * step)) * PerSecond < node)
        {
            index++;
        }

        while ((start + ((index - 1) * step)) * PerSecond >= node)
        {
            index--;
        }

        return (long)index;
    }

    private void AddSized(Span<double> target, double scale, double place)
    {
        double from = scale * _sizeFrom;
        if (_isConstant)
        {
            SpanLanes.AddProduct(target, _wave, from);
            return;
        }

        double grows = scale * (_sizeTo - _sizeFrom) / Samples;
        for (int i = 0; i < target.Length; i++)
        {
            target[i] += (from + (grows * (place + i))) * _wave[i];
        }
    }

    // Nodes from the first to the last stand in the array.
    private void MakeNodes(long first, long last)
    {
        if (_endNode == long.MinValue)
        {
            _endNode = first - PreRollNodes;
            _firstNode = _endNode;
        }

        // Those of the last stretch that are still wanted move to the front.
        int kept = (int)Math.Max(0, _endNode - first);
        if (kept > 0 && first > _firstNode)
        {
            _nodes.AsSpan((int)(first - _firstNode), kept).CopyTo(_nodes);
        }

        double mean = _mean;
        long node = _endNode;
        for (; node <= last; node++)
        {
            double draw = Draw(node);
            mean += (1 - Keep) * (draw - mean);
            if (node >= first)
            {
                _nodes[(int)(node - first)] = s_scale * (draw - mean);
            }
        }

        _mean = mean;
        _endNode = node;
        _firstNode = first;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private double Draw(long node)
    {
        // Rounds down also before time 0.
        long block = node >> 4;
        if (block != _drawBlock)
        {
            _drawBlock = block;
            _random.FillNormals(_draws, block * DrawsTogether, 1);
        }

        return _draws[(int)(node & (DrawsTogether - 1))];
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
