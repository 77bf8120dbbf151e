// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Movement;

/// <summary>White noise of an axis behind its one-pole low-pass, sampled.</summary>
/// <remarks>
/// Variance = density² × π / 2 × bandwidth, the equivalent noise bandwidth of one pole (textbook), at any rate: what lies above half the rate
/// folds. Neighbouring samples are correlated by e^(−2π · bandwidth · T), which one recurrence gives exactly (Ornstein and Uhlenbeck 1930).
/// </remarks>
internal sealed class AxisNoise
{
    private const int Length = 64;
    private readonly KeyedRandom _random;
    private readonly double _keep;
    private readonly double _new;
    private readonly double[] _values = new double[Length];
    private long _nextBlock;

    /// <summary>Creates the noise.</summary>
    /// <param name="random">Its source; draw i belongs to sample i.</param>
    /// <param name="bandwidthHz">Bandwidth of the low-pass [Hz], above 0.</param>
    /// <param name="grid">Sampling instants.</param>
    public AxisNoise(KeyedRandom random, double bandwidthHz, SampleGrid grid)
    {
        _random = random;
        double twice = 4 * Math.PI * bandwidthHz * grid.StepSeconds;
        _keep = PortableMath.Exp(-0.5 * twice);
        _new = Math.Sqrt(1 - PortableMath.Exp(-twice));
    }

    private AxisNoise(AxisNoise other)
    {
        _random = other._random;
        _keep = other._keep;
        _new = other._new;
        other._values.CopyTo(_values, 0);
        _nextBlock = other._nextBlock;
    }

    /// <summary>Root mean square of the noise over its density [√Hz].</summary>
    /// <param name="bandwidthHz">Bandwidth of the low-pass [Hz].</param>
    public static double RootBandwidth(double bandwidthHz) => Math.Sqrt(0.5 * Math.PI * bandwidthHz);

    /// <summary>Adds the noise.</summary>
    /// <param name="buffer">Element i gets the noise of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; forward only, at most to the 64 of the last call's last sample.</param>
    /// <param name="rms">Its root mean square; with 0 it goes on unseen.</param>
    public void Add(Span<double> buffer, long firstIndex, double rms)
    {
        for (int done = 0; done < buffer.Length;)
        {
            long index = firstIndex + done;
            while (_nextBlock * Length <= index)
            {
                MakeNext();
            }

            int place = (int)(index % Length);
            int count = Math.Min(Length - place, buffer.Length - done);
            SpanLanes.AddProduct(buffer.Slice(done, count), _values.AsSpan(place, count), rms);
            done += count;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AxisNoise Copy() => new(this);

    // The next 64 samples of rms 1, at an absolute place.
    private void MakeNext()
    {
        var outputs = new OnePoleLanes(_keep, _values[Length - 1]);
        _random.FillNormals(_values, _nextBlock * Length, _new);
        if (_nextBlock == 0)
        {
            // Sample 0 is drawn from the whole distribution: the noise has always been there.
            _values[0] = _random.Normal(0);
        }

        for (int i = 0; i < Length; i += 4)
        {
            ref double four = ref _values[i];
            outputs.Next(Vector256.LoadUnsafe(ref four)).StoreUnsafe(ref four);
        }

        _nextBlock++;
    }
}
