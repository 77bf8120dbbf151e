// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Fundamental and two harmonics of the mains on the ECG's grid, times 1 + depth × sin of a slow phase.</summary>
/// <remarks>
/// <para>Sine and cosine of the phase are made once for everything that the mains comes in by: exact at anchors, every 64th sample or as many as
/// fit into 0.3 s (a multiple of eight), and turned by a constant angle in between. Harmonics follow from them: sin 2φ = 2 sin φ cos φ,
/// sin 3φ = sin φ (3 − 4 sin² φ), and so on.</para>
/// <para>The samples after an anchor are made all at once, whatever is asked for: a function of their place alone, so no cut changes a bit and a copy
/// begins without any.</para>
/// </remarks>
internal sealed class MainsWaves
{
    private const int Lanes = 4;
    private const int Most = 64;
    private const double LongestSeconds = 0.3;

    // What a piece of the ECG needs at once: 256 samples, or those of a second when the rate is low.
    private const int Kept = 8;

    private readonly SampleGrid _grid;
    private readonly WanderingPhase _mains;
    private readonly WanderingPhase _swell;
    private readonly bool _isSwelling;
    private readonly int _length;
    private readonly double[] _sin = new double[Kept * Most];
    private readonly double[] _cos = new double[Kept * Most];
    private readonly double[] _slow = new double[Kept * Most];
    private readonly long[] _made = new long[Kept];
    private double _turns;
    private double _slowTurns;
    private long _turnsAt = -1;

    /// <summary>Creates the waves.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="mains">Phase of the mains.</param>
    public MainsWaves(KeyValues values, ulong seed, SampleGrid grid, WanderingPhase mains)
    {
        _grid = grid;
        _mains = mains;
        _isSwelling = !values.Course(MainsKeys.ModulationPercent).IsAlways(0);

        // The limits of the wander play no part: it is 0.
        _swell = new WanderingPhase(new KeyedRandom(seed, "mains.modulation"), values[MainsKeys.ModulationHz], 0, 0.0017, 0.033);
        _length = (int)Math.Max(1, Math.Min(Most / SteadySines.Group, Math.Floor(LongestSeconds / grid.StepSeconds / SteadySines.Group))) * SteadySines.Group;
        Array.Fill(_made, -1);
    }

    private MainsWaves(MainsWaves other)
    {
        _grid = other._grid;
        _mains = other._mains;
        _swell = other._swell;
        _isSwelling = other._isSwelling;
        _length = other._length;
        Array.Fill(_made, -1);
    }

    /// <summary>Adds the mains to samples.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="firstIndex">Index of the first sample, at least 0.</param>
    /// <param name="sine">Factors of the sines, one lane for each multiple.</param>
    /// <param name="cosine">Factors of the cosines, likewise.</param>
    /// <param name="depth">Depth of the modulation, 0 to 1.</param>
    public void Add(Span<double> buffer, long firstIndex, Vector256<double> sine, Vector256<double> cosine, double depth)
    {
        var mix = new Mix(sine, cosine, depth);
        int room = Kept * _length;
        for (int done = 0; done < buffer.Length;)
        {
            // Stretches stand one behind the other: all up to the end of the room are mixed at once.
            long first = firstIndex + done;
            int at = (int)(first % room);
            int count = Math.Min(buffer.Length - done, room - at);
            for (int slot = at / _length; slot * _length < at + count; slot++)
            {
                long stretch = ((first - at) / _length) + slot;
                if (_made[slot] != stretch)
                {
                    Make(stretch, slot);
                }
            }

            mix.Add(buffer.Slice(done, count), _sin.AsSpan(at, count), _cos.AsSpan(at, count), _slow.AsSpan(at, count));
            done += count;
        }
    }

    /// <summary>An independent copy.</summary>
    public MainsWaves Copy() => new(this);

    private void Make(long stretch, int slot)
    {
        _made[slot] = stretch;
        long first = stretch * _length;
        double end = _grid.Seconds(first + _length);

        // Reading on, an anchor's phase is the one the last stretch ended with: the same number, not asked for twice.
        bool isNext = _turnsAt == first;
        double turns = isNext ? _turns : _mains.Turns(_grid.Seconds(first));
        double slow = isNext ? _slowTurns : _swell.Turns(_grid.Seconds(first));
        _turns = _mains.Turns(end);
        _slowTurns = _swell.Turns(end);
        _turnsAt = first + _length;
        double step = (_turns - turns) / _length;
        double slowStep = (_slowTurns - slow) / _length;
        PortableMath.SinCosTurns(Vector256.Create(turns, step, slow, slowStep), out Vector256<double> sin, out Vector256<double> cos);
        int at = slot * _length;
        SteadySines.Fill(
            new Phasor(cos.GetElement(0), sin.GetElement(0)),
            new Phasor(cos.GetElement(1), sin.GetElement(1)),
            _sin.AsSpan(at, _length),
            _cos.AsSpan(at, _length));
        if (_isSwelling)
        {
            SteadySines.FillSlow(new Phasor(cos.GetElement(2), sin.GetElement(2)), new Phasor(cos.GetElement(3), sin.GetElement(3)), _slow.AsSpan(at, _length));
        }
    }

    // a₁ sin φ + b₁ cos φ + a₂ sin 2φ + b₂ cos 2φ + a₃ sin 3φ + b₃ cos 3φ by sine and cosine of φ.
    private readonly struct Mix(Vector256<double> sine, Vector256<double> cosine, double depth)
    {
        private readonly double _sin = sine.GetElement(0) + (3 * sine.GetElement(2));
        private readonly double _sinCos = 2 * sine.GetElement(1);
        private readonly double _sinCube = -4 * sine.GetElement(2);
        private readonly double _cos = cosine.GetElement(0) + cosine.GetElement(2);
        private readonly double _cosSquare = -4 * cosine.GetElement(2);
        private readonly double _one = cosine.GetElement(1);
        private readonly double _square = -2 * cosine.GetElement(1);
        private readonly double _depth = depth;

        public void Add(Span<double> target, ReadOnlySpan<double> sines, ReadOnlySpan<double> cosines, ReadOnlySpan<double> swell)
        {
            ref double t = ref MemoryMarshal.GetReference(target);
            ref double s = ref MemoryMarshal.GetReference(sines);
            ref double c = ref MemoryMarshal.GetReference(cosines);
            ref double w = ref MemoryMarshal.GetReference(swell);
            int whole = target.Length & -Lanes;

            // In locals they stay in registers: stores to the target might change fields.
            var ofSin = Vector256.Create(_sin);
            var ofSinCos = Vector256.Create(_sinCos);
            var ofSinCube = Vector256.Create(_sinCube);
            var ofCos = Vector256.Create(_cos);
            var ofCosSquare = Vector256.Create(_cosSquare);
            var ofOne = Vector256.Create(_one);
            var ofSquare = Vector256.Create(_square);
            var ofDepth = Vector256.Create(_depth);
            for (nuint i = 0; i < (nuint)(uint)whole; i += Lanes)
            {
                // The same operations as below.
                Vector256<double> sin = Vector256.LoadUnsafe(ref s, i);
                Vector256<double> cos = Vector256.LoadUnsafe(ref c, i);
                Vector256<double> square = sin * sin;
                Vector256<double> odd = sin * (ofSin + (ofSinCos * cos) + (ofSinCube * square));
                Vector256<double> even = ofOne + (ofSquare * square) + (cos * (ofCos + (ofCosSquare * square)));
                Vector256<double> size = Vector256<double>.One + (ofDepth * Vector256.LoadUnsafe(ref w, i));
                (Vector256.LoadUnsafe(ref t, i) + ((odd + even) * size)).StoreUnsafe(ref t, i);
            }

            for (int i = whole; i < target.Length; i++)
            {
                double sin = sines[i];
                double cos = cosines[i];
                double square = sin * sin;
                double odd = sin * (_sin + (_sinCos * cos) + (_sinCube * square));
                double even = _one + (_square * square) + (cos * (_cos + (_cosSquare * square)));
                target[i] += (odd + even) * (1 + (_depth * swell[i]));
            }
        }
    }
}
