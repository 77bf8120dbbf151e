// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>The clean voltage near one QRS: the waves that reach it, and the activity.</summary>
internal ref struct ReachingWaves
{
    private readonly Span<Reaching> _waves;
    private readonly EcgActivity? _activity;
    private int _count;

    /// <summary>Gathers what reaches a span of time.</summary>
    /// <param name="space">Room for every wave of the events.</param>
    /// <param name="neighbours">Other events.</param>
    /// <param name="own">The beat; its R comes first.</param>
    /// <param name="activity">What follows no beat.</param>
    /// <param name="fromSeconds">Begin of the span [s].</param>
    /// <param name="toSeconds">End of the span [s].</param>
    public ReachingWaves(
        Span<Reaching> space, ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own, EcgActivity activity, double fromSeconds, double toSeconds)
    {
        _waves = space;
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

    /// <summary>The waves.</summary>
    public readonly ReadOnlySpan<Reaching> Waves => _waves[.._count];

    /// <summary>Clean voltage [mV] with its derivatives [mV/s, mV/s²].</summary>
    public readonly double At(double seconds, out double slope, out double curvature)
    {
        double value = 0;
        slope = 0;
        curvature = 0;
        foreach (ref readonly Reaching wave in Waves)
        {
            double x = (seconds - wave.Centre) * wave.PerSigma;
            double square = x * x;
            if (square <= EcgWave.CutSigmas * EcgWave.CutSigmas)
            {
                double g = wave.Millivolts * PortableMath.Exp(-0.5 * square);
                value += g;
                slope -= g * x * wave.PerSigma;
                curvature += g * (square - 1) * (wave.PerSigma * wave.PerSigma);
            }
        }

        _activity?.Accumulate(seconds, ref value, ref slope, ref curvature);
        return value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void AddWave(in EcgWave wave, double from, double to)
    {
        double reach = EcgWave.CutSigmas * wave.SigmaSeconds;
        if (wave.Millivolts != 0 && wave.CentreSeconds + reach > from && wave.CentreSeconds - reach < to)
        {
            _waves[_count++] = new Reaching(wave.CentreSeconds, 1 / wave.SigmaSeconds, wave.Millivolts);
        }
    }

    /// <summary>A wave, ready to be evaluated.</summary>
    /// <param name="Centre">Its centre [s].</param>
    /// <param name="PerSigma">One over its standard deviation [1/s].</param>
    /// <param name="Millivolts">Its height [mV].</param>
    internal readonly record struct Reaching(double Centre, double PerSigma, double Millivolts);
}
