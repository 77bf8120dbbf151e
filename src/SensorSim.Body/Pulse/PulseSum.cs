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

    private const int Lanes = 4;

    // Rows of four waves: start, 1 / time to peak, height, cut, order.
    private const int Columns = 5;
    private const int Row = Columns * Lanes;
    private const int Rows = ((PulseBeat.Count * Beats) + Lanes - 1) / Lanes;

    private readonly double[] _waves = new double[Rows * Row];
    private int _count;
    private int _end;
    private Vector256<double> _ownStart;
    private Vector256<double> _ownPerSecond;
    private Vector256<double> _ownHeight;
    private Vector256<double> _ownCutX;
    private Vector256<double> _ownOrder;

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
        _end = 0;
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
            ref readonly PulseWave wave = ref beat[i];
            double x = (aliveAtSeconds - wave.StartSeconds) * wave.PerSecond;
            double height = wave.Height * relativeGain;
            if (x >= wave.CutX || height == 0 || _count == PulseBeat.Count * Beats)
            {
                continue;
            }

            if (_count % Lanes == 0)
            {
                // A row is filled up with waves that are nothing anywhere.
                _waves.AsSpan(_end, Row).Clear();
                _end += Row;
            }

            Span<double> row = _waves.AsSpan(_end - Row + (_count % Lanes), Row - Lanes + 1);
            row[0] = wave.StartSeconds;
            row[Lanes] = wave.PerSecond;
            row[2 * Lanes] = height;
            row[3 * Lanes] = wave.CutX;
            row[4 * Lanes] = 3 * wave.Thirds;
            _count++;
            YoungestX = x < YoungestX ? x : YoungestX;
        }
    }

    /// <summary>Sets the beat's own components.</summary>
    /// <param name="beat">The beat.</param>
    public void SetOwn(in PulseBeat beat)
    {
        OwnStartSeconds = beat[0].StartSeconds;
        _ownStart = Vector256.Create(0, beat[1].StartSeconds - OwnStartSeconds, beat[2].StartSeconds - OwnStartSeconds, 0);
        _ownPerSecond = Vector256.Create(beat[0].PerSecond, beat[1].PerSecond, beat[2].PerSecond, 0);
        _ownHeight = Vector256.Create(beat[0].Height, beat[1].Height, beat[2].Height, 0);
        _ownCutX = Vector256.Create(beat[0].CutX, beat[1].CutX, beat[2].CutX, 0);
        _ownOrder = Vector256.Create(3.0 * beat[0].Thirds, 3.0 * beat[1].Thirds, 3.0 * beat[2].Thirds, 3);
    }

    /// <summary>The pulse and its derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    public PulsePoint At(double seconds)
    {
        At4(seconds - OwnStartSeconds, out PulsePoint point);
        return point;
    }

    /// <summary>Value and three derivatives.</summary>
    /// <param name="offset">Time after the own start [s].</param>
    /// <param name="sum">Receives the sum.</param>
    internal void At3(double offset, out PulsePoint sum) => At(OwnStartSeconds, offset, derivatives: 3, hasParts: false, out _, out sum);

    /// <summary>Value and four derivatives.</summary>
    internal void At4(double offset, out PulsePoint sum) => At(OwnStartSeconds, offset, derivatives: 4, hasParts: false, out _, out sum);

    /// <summary>Value and three derivatives; of the earlier beats alone too.</summary>
    /// <param name="start">Where the own pulse is taken to start [s].</param>
    /// <param name="offset">Time after that start [s].</param>
    /// <param name="earlier">Receives the part of the earlier beats.</param>
    /// <param name="sum">Receives the sum.</param>
    internal void At3(double start, double offset, out PulsePoint earlier, out PulsePoint sum) =>
        At(start, offset, derivatives: 3, hasParts: true, out earlier, out sum);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void At(double start, double offset, int derivatives, bool hasParts, out PulsePoint earlier, out PulsePoint sum)
    {
        Vector256<double> value = default;
        Vector256<double> slope = default;
        Vector256<double> curvature = default;
        Vector256<double> jerk = default;
        Vector256<double> jerkSlope = default;
        var minusTwo = Vector256.Create(-2.0);
        earlier = default;
        sum = default;
        var at = Vector256.Create(start + offset);
        ref double first = ref MemoryMarshal.GetArrayDataReference(_waves);
        for (int i = 0; i <= _end; i += Row)
        {
            Vector256<double> v;
            Vector256<double> l;
            Vector256<double> l1;
            Vector256<double> inverse;
            if (i < _end)
            {
                ref double row = ref Unsafe.Add(ref first, i);
                Vector256<double> perSecond = Vector256.LoadUnsafe(ref row, Lanes);
                v = PulseLanes.Value(
                    (at - Vector256.LoadUnsafe(ref row)) * perSecond,
                    perSecond,
                    Vector256.LoadUnsafe(ref row, 2 * Lanes),
                    Vector256.LoadUnsafe(ref row, 3 * Lanes),
                    Vector256.LoadUnsafe(ref row, 4 * Lanes),
                    out l,
                    out l1,
                    out inverse);
            }
            else
            {
                if (hasParts)
                {
                    earlier.Slope = PulseLanes.Across(slope);
                    earlier.Curvature = PulseLanes.Across(curvature);
                    earlier.Jerk = PulseLanes.Across(jerk);
                }

                v = PulseLanes.Value(
                    (Vector256.Create(offset) - _ownStart) * _ownPerSecond, _ownPerSecond, _ownHeight, _ownCutX, _ownOrder, out l, out l1, out inverse);
            }

            // v'' / v = l² + l' and so on.
            Vector256<double> l2 = minusTwo * l1 * inverse;
            value += v;
            slope += v * l;
            curvature += v * ((l * l) + l1);
            jerk += v * PulseLanes.Jerk(l, l1, l2);
            if (derivatives > 3)
            {
                Vector256<double> l3 = Vector256.Create(-3.0) * l2 * inverse;
                jerkSlope += v * PulseLanes.JerkSlope(l, l1, l2, l3);
            }
        }

        sum.Value = PulseLanes.Across(value);
        sum.Slope = PulseLanes.Across(slope);
        sum.Curvature = PulseLanes.Across(curvature);
        sum.Jerk = PulseLanes.Across(jerk);
        sum.JerkSlope = derivatives > 3 ? PulseLanes.Across(jerkSlope) : 0;
    }
}
