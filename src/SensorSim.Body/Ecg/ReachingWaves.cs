// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>The clean voltage near one QRS: the waves that reach it, and the activity.</summary>
/// <remarks>Waves lie side by side in rows of four: centres, 1 / standard deviation, heights. What fills up the last row has no height.</remarks>
internal ref struct ReachingWaves
{
    private const int Lanes = 4;
    private const int Row = 3 * Lanes;
    private readonly Span<double> _rows;
    private readonly EcgActivity? _activity;
    private int _count;

    /// <summary>Gathers what reaches a span of time.</summary>
    /// <param name="space">Room for every wave of the events, see <see cref="Room"/>.</param>
    /// <param name="neighbours">Other events.</param>
    /// <param name="own">The beat; its R comes first.</param>
    /// <param name="activity">What follows no beat.</param>
    /// <param name="fromSeconds">Begin of the span [s].</param>
    /// <param name="toSeconds">End of the span [s].</param>
    public ReachingWaves(
        Span<double> space, ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own, EcgActivity activity, double fromSeconds, double toSeconds)
    {
        _rows = space;
        activity.Bounds(fromSeconds, toSeconds, out double most, out double curvature);
        ActivityMillivolts = most;
        ActivityCurvature = curvature;
        _activity = most > 0 ? activity : null;
        AddWave(own[EcgBeat.R], fromSeconds, toSeconds);
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            if (i != EcgBeat.R)
            {
                AddWave(own[i], fromSeconds, toSeconds);
            }
        }

        foreach (ref readonly EcgBeat other in neighbours)
        {
            for (int i = 0; i < EcgBeat.Count; i++)
            {
                AddWave(other[i], fromSeconds, toSeconds);
            }
        }
    }

    /// <summary>No value of the activity exceeds this [mV].</summary>
    public double ActivityMillivolts { get; }

    /// <summary>No second derivative of the activity exceeds this [mV/s²].</summary>
    public double ActivityCurvature { get; }

    /// <summary>How many waves there are.</summary>
    public readonly int Count => _count;

    /// <summary>A wave; R is the first.</summary>
    /// <param name="index">Which, below <see cref="Count"/>.</param>
    public readonly Reaching this[int index]
    {
        get
        {
            int place = Place(index);
            return new Reaching(_rows[place], _rows[place + Lanes], _rows[place + (2 * Lanes)]);
        }
    }

    /// <summary>Room for as many waves.</summary>
    public static int Room(int waves) => (waves + Lanes - 1) / Lanes * Row;

    /// <summary>Clean voltage [mV] with its derivatives [mV/s, mV/s²].</summary>
    public readonly double At(double seconds, out double slope, out double curvature)
    {
        Vector256<double> values = default;
        Vector256<double> slopes = default;
        Vector256<double> curvatures = default;
        var at = Vector256.Create(seconds);
        var most = Vector256.Create(EcgWave.CutSigmas * EcgWave.CutSigmas);
        ref double row = ref MemoryMarshal.GetReference(_rows);
        for (int i = 0; i < _count; i += Lanes)
        {
            Vector256<double> perSigma = Vector256.LoadUnsafe(ref row, Lanes);
            Vector256<double> x = (at - Vector256.LoadUnsafe(ref row)) * perSigma;
            Vector256<double> square = x * x;
            Vector256<double> isThere = Vector256.LessThanOrEqual(square, most);
            Vector256<double> height = Vector256.LoadUnsafe(ref row, 2 * Lanes) & isThere;
            Vector256<double> g = height * ExpLanes.Exp((square & isThere) * -0.5);
            Vector256<double> steep = g * perSigma;
            values += g;
            slopes -= steep * x;
            curvatures += steep * perSigma * (square - Vector256<double>.One);
            row = ref Unsafe.Add(ref row, Row);
        }

        double value = Across(values);
        slope = Across(slopes);
        curvature = Across(curvatures);
        _activity?.Accumulate(seconds, ref value, ref slope, ref curvature);
        return value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void AddWave(in EcgWave wave, double from, double to)
    {
        double reach = EcgWave.CutSigmas * wave.SigmaSeconds;
        if (wave.Millivolts != 0 && wave.CentreSeconds + reach > from && wave.CentreSeconds - reach < to)
        {
            Span<double> lane = _rows[Place(_count)..];
            if (_count % Lanes == 0)
            {
                lane[..Row].Clear();
            }

            lane[2 * Lanes] = wave.Millivolts;
            lane[Lanes] = 1 / wave.SigmaSeconds;
            lane[0] = wave.CentreSeconds;
            _count++;
        }
    }

    private static int Place(int index) => (int)(((uint)index / Lanes * Row) + ((uint)index % Lanes));

    // (0 + 2) + (1 + 3): one order for every machine.
    private static double Across(Vector256<double> lanes)
    {
        Vector128<double> pairs = lanes.GetLower() + lanes.GetUpper();
        return pairs.GetElement(0) + pairs.GetElement(1);
    }

    /// <summary>A wave.</summary>
    /// <param name="Centre">Its centre [s].</param>
    /// <param name="PerSigma">One over its standard deviation [1/s].</param>
    /// <param name="Millivolts">Its height [mV].</param>
    internal readonly record struct Reaching(double Centre, double PerSigma, double Millivolts);
}
