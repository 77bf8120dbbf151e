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

    // The own components, with the time from the first one's start in place of the start; one lane is nothing.
    private readonly double[] _own = new double[Row];
    private int _count;
    private int _end;

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

            Write(_waves, _end - Row + (_count % Lanes), wave, wave.StartSeconds, height);
            _count++;
            YoungestX = x < YoungestX ? x : YoungestX;
        }
    }

    /// <summary>Sets the beat's own components.</summary>
    /// <param name="beat">The beat.</param>
    public void SetOwn(in PulseBeat beat)
    {
        OwnStartSeconds = beat[0].StartSeconds;
        for (int i = 0; i < PulseBeat.Count; i++)
        {
            Write(_own, i, beat[i], beat[i].StartSeconds - OwnStartSeconds, beat[i].Height);
        }
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
    internal void At3(double offset, out PulsePoint sum) => At(offset, derivatives: 3, out sum);

    /// <summary>Value and four derivatives.</summary>
    internal void At4(double offset, out PulsePoint sum) => At(offset, derivatives: 4, out sum);

    /// <summary>Value and four derivatives of the earlier beats alone at four instants.</summary>
    /// <param name="seconds">Times [s].</param>
    /// <param name="sum">Receives the sum.</param>
    internal void Earlier4(Vector256<double> seconds, out PulsePoints sum)
    {
        sum = default;
        Add4(_waves, _count, seconds, ref sum);
    }

    /// <summary>Adds value and four derivatives of the own components at four instants.</summary>
    /// <param name="offsets">Times after the own start [s].</param>
    /// <param name="sum">Gets the sum.</param>
    internal void AddOwn4(Vector256<double> offsets, ref PulsePoints sum) => Add4(_own, PulseBeat.Count, offsets, ref sum);

    private static void Add4(double[] waves, int count, Vector256<double> at, ref PulsePoints sum)
    {
        Vector256<double> value = sum.Value;
        Vector256<double> slope = sum.Slope;
        Vector256<double> curvature = sum.Curvature;
        Vector256<double> jerk = sum.Jerk;
        Vector256<double> jerkSlope = sum.JerkSlope;
        ref double wave = ref MemoryMarshal.GetArrayDataReference(waves);
        for (int i = 0; i < count; i++)
        {
            var perSecond = Vector256.Create(Unsafe.Add(ref wave, Lanes));
            Vector256<double> v = PulseLanes.Value(
                (at - Vector256.Create(wave)) * perSecond,
                perSecond,
                Vector256.Create(Unsafe.Add(ref wave, 2 * Lanes)),
                Vector256.Create(Unsafe.Add(ref wave, 3 * Lanes)),
                Vector256.Create(Unsafe.Add(ref wave, 4 * Lanes)),
                out Vector256<double> l,
                out Vector256<double> l1,
                out Vector256<double> inverse);

            // v'' / v = l² + l' and so on.
            Vector256<double> l2 = Vector256.Create(-2.0) * l1 * inverse;
            Vector256<double> l3 = Vector256.Create(-3.0) * l2 * inverse;
            value += v;
            slope += v * l;
            curvature += v * ((l * l) + l1);
            jerk += v * PulseLanes.Jerk(l, l1, l2);
            jerkSlope += v * PulseLanes.JerkSlope(l, l1, l2, l3);

            // The next lane, or the first one of the next row.
            wave = ref Unsafe.Add(ref wave, (i & (Lanes - 1)) == Lanes - 1 ? Row - Lanes + 1 : 1);
        }

        sum.Value = value;
        sum.Slope = slope;
        sum.Curvature = curvature;
        sum.Jerk = jerk;
        sum.JerkSlope = jerkSlope;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void At(double offset, int derivatives, out PulsePoint sum)
    {
        Vector256<double> value = default;
        Vector256<double> slope = default;
        Vector256<double> curvature = default;
        Vector256<double> jerk = default;
        Vector256<double> jerkSlope = default;
        sum = default;
        for (int i = 0; i <= _end; i += Row)
        {
            bool isOwn = i == _end;
            ref double row = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(isOwn ? _own : _waves), isOwn ? 0 : i);
            var at = Vector256.Create(isOwn ? offset : OwnStartSeconds + offset);
            Vector256<double> perSecond = Vector256.LoadUnsafe(ref row, Lanes);
            Vector256<double> v = PulseLanes.Value(
                (at - Vector256.LoadUnsafe(ref row)) * perSecond,
                perSecond,
                Vector256.LoadUnsafe(ref row, 2 * Lanes),
                Vector256.LoadUnsafe(ref row, 3 * Lanes),
                Vector256.LoadUnsafe(ref row, 4 * Lanes),
                out Vector256<double> l,
                out Vector256<double> l1,
                out Vector256<double> inverse);
            Vector256<double> l2 = Vector256.Create(-2.0) * l1 * inverse;
            value += v;
            slope += v * l;
            curvature += v * ((l * l) + l1);
            jerk += v * PulseLanes.Jerk(l, l1, l2);
            if (derivatives > 3)
            {
                jerkSlope += v * PulseLanes.JerkSlope(l, l1, l2, Vector256.Create(-3.0) * l2 * inverse);
            }
        }

        sum.Value = PulseLanes.Across(value);
        sum.Slope = PulseLanes.Across(slope);
        sum.Curvature = PulseLanes.Across(curvature);
        sum.Jerk = PulseLanes.Across(jerk);
        sum.JerkSlope = derivatives > 3 ? PulseLanes.Across(jerkSlope) : 0;
    }

    private static void Write(double[] waves, int place, in PulseWave wave, double start, double height)
    {
        waves[place] = start;
        waves[place + Lanes] = wave.PerSecond;
        waves[place + (2 * Lanes)] = height;
        waves[place + (3 * Lanes)] = wave.CutX;
        waves[place + (4 * Lanes)] = 3 * wave.Thirds;
    }
}
