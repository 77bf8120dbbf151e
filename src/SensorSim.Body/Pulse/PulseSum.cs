// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Pulse;

/// <summary>The arterial pulse near one beat: its own components and those of earlier beats that have not died away.</summary>
/// <remarks>Waves lie side by side in lanes of four, the own ones in a group of their own that the solver can shift as a whole.</remarks>
public sealed class PulseSum
{
    /// <summary>
    /// Most earlier beats: at the longest scale (30 bpm) a component outlasts twenty of the shortest RR intervals (0.2 s).
    /// </summary>
    public const int Beats = 21;

    private const int Capacity = ((PulseBeat.Count * Beats) + Lanes - 1) / Lanes * Lanes;
    private const int Lanes = 4;

    private readonly double[] _start = new double[Capacity];
    private readonly double[] _perSecond = new double[Capacity];
    private readonly double[] _height = new double[Capacity];
    private readonly double[] _cutX = new double[Capacity];
    private readonly double[] _order = new double[Capacity];
    private int _count;
    private PulseLanes _own;

    /// <summary>Where the own pulse starts [s].</summary>
    internal double OwnStartSeconds { get; private set; }

    /// <summary>Whether no earlier beat is left.</summary>
    internal bool IsAlone => _count == 0;

    /// <summary>
    /// Least of (time − start) / time to peak among the earlier components, at the time they were taken: above 1 all of them fall.
    /// </summary>
    internal double YoungestX { get; private set; } = double.PositiveInfinity;

    /// <summary>Starts a sum for a new beat: forgets everything.</summary>
    public void Clear()
    {
        _count = 0;
        YoungestX = double.PositiveInfinity;
    }

    /// <summary>Takes an earlier beat's components, as far as they are still alive.</summary>
    /// <param name="beat">The beat; what comes after <see cref="Beats"/> whole beats is left out.</param>
    /// <param name="relativeGain">Gain of that beat / gain of the own beat, for the light in question; 1 for the pulse itself.</param>
    /// <param name="aliveAtSeconds">The sum is not asked for earlier times than this [s].</param>
    public void AddEarlier(in PulseBeat beat, double relativeGain, double aliveAtSeconds)
    {
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            PulseWave wave = beat[i];
            double height = wave.Height * relativeGain;
            if (!(wave.CutSeconds > aliveAtSeconds) || height == 0 || _count == PulseBeat.Count * Beats)
            {
                continue;
            }

            int lane = _count % Lanes;
            if (lane == 0)
            {
                // A group is filled up with waves that are nothing anywhere.
                _height.AsSpan(_count, Lanes).Clear();
                _start.AsSpan(_count, Lanes).Clear();
                _perSecond.AsSpan(_count, Lanes).Clear();
            }

            _start[_count] = wave.StartSeconds;
            _perSecond[_count] = 1 / wave.ToPeakSeconds;
            _height[_count] = height;
            _cutX[_count] = wave.CutX;
            _order[_count] = 3 * wave.Thirds;
            _count++;
            YoungestX = Math.Min(YoungestX, (aliveAtSeconds - wave.StartSeconds) / wave.ToPeakSeconds);
        }
    }

    /// <summary>Sets the beat's own components.</summary>
    public void SetOwn(in PulseBeat beat)
    {
        OwnStartSeconds = beat[0].StartSeconds;
        _own = new PulseLanes(
            Vector256.Create(0, beat[1].StartSeconds - OwnStartSeconds, beat[2].StartSeconds - OwnStartSeconds, 0),
            Vector256.Create(1 / beat[0].ToPeakSeconds, 1 / beat[1].ToPeakSeconds, 1 / beat[2].ToPeakSeconds, 0),
            Vector256.Create(beat[0].Height, beat[1].Height, beat[2].Height, 0),
            Vector256.Create(beat[0].CutX, beat[1].CutX, beat[2].CutX, 0),
            Vector256.Create(3.0 * beat[0].Thirds, 3.0 * beat[1].Thirds, 3.0 * beat[2].Thirds, 3));
    }

    /// <summary>The pulse and its derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    public PulsePoint At(double seconds)
    {
        At4(OwnStartSeconds, seconds - OwnStartSeconds, out PulsePoint point);
        return point;
    }

    /// <summary>Value and two derivatives; of the earlier beats alone too.</summary>
    /// <param name="start">Where the own pulse is taken to start [s].</param>
    /// <param name="offset">Time after that start [s].</param>
    /// <param name="earlier">Receives the part of the earlier beats.</param>
    /// <param name="sum">Receives the sum.</param>
    internal void At2(double start, double offset, out PulsePoint earlier, out PulsePoint sum)
    {
        PulseLaneSums sums = Earlier(start + offset, 2);
        sums.Total(2, out earlier);
        _own.Accumulate(Vector256.Create(offset), 2, ref sums);
        sums.Total(2, out sum);
    }

    /// <summary>Value and three derivatives; of the earlier beats alone too.</summary>
    internal void At3(double start, double offset, out PulsePoint earlier, out PulsePoint sum)
    {
        PulseLaneSums sums = Earlier(start + offset, 3);
        sums.Total(3, out earlier);
        _own.Accumulate(Vector256.Create(offset), 3, ref sums);
        sums.Total(3, out sum);
    }

    /// <summary>Value and four derivatives.</summary>
    internal void At4(double start, double offset, out PulsePoint sum)
    {
        PulseLaneSums sums = Earlier(start + offset, 4);
        _own.Accumulate(Vector256.Create(offset), 4, ref sums);
        sums.Total(4, out sum);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private PulseLaneSums Earlier(double seconds, int derivatives)
    {
        PulseLaneSums sums = default;
        var at = Vector256.Create(seconds);
        for (int i = 0; i < _count; i += Lanes)
        {
            var group = new PulseLanes(Load(_start, i), Load(_perSecond, i), Load(_height, i), Load(_cutX, i), Load(_order, i));
            group.Accumulate(at, derivatives, ref sums);
        }

        return sums;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Load(double[] array, int index) =>
        Vector256.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(array), (nuint)index);
}
