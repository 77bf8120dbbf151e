// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Processes;

/// <summary>The phase of an oscillation whose frequency wanders slowly about its mean; a closed form, so any time can be asked for.</summary>
/// <remarks>
/// Phase = f·t + start + a sum of eight slow sines of equal frequency deviation. The frequency deviates by the stated standard
/// deviation; a line spectrum widened in this way takes the shape of the deviation's distribution (Woodward's theorem), here
/// close to a Gaussian. The slow frequencies are drawn log-uniformly, one from each of eight equal parts of the range.
/// </remarks>
public sealed class WanderingPhase
{
    private const int Count = 8;
    private readonly Course _frequencyHz;
    private readonly bool _isChanging;
    private readonly double _startTurns;
    private readonly double _deviationHz;
    private readonly bool _isSteady;
    private readonly Slow _first;
    private readonly Slow _second;

    /// <summary>Creates an oscillation.</summary>
    /// <param name="random">Its own source; draws 0 to 16 are used.</param>
    /// <param name="frequencyHz">Mean frequency [Hz], at least 0.</param>
    /// <param name="spreadHz">Standard deviation of the frequency [Hz], at least 0.</param>
    /// <param name="slowestHz">Lowest frequency of the wander [Hz], above 0.</param>
    /// <param name="fastestHz">Highest frequency of the wander [Hz], above the lowest.</param>
    public WanderingPhase(KeyedRandom random, double frequencyHz, double spreadHz, double slowestHz, double fastestHz)
        : this(random, new Course(frequencyHz), spreadHz, slowestHz, fastestHz)
    {
    }

    /// <summary>Creates an oscillation whose mean frequency follows a course: the phase is its integral, so it never jumps.</summary>
    /// <param name="random">Its own source; draws 0 to 16 are used.</param>
    /// <param name="frequencyHz">Mean frequency [Hz], at least 0.</param>
    /// <param name="spreadHz">Standard deviation of the frequency about the course [Hz], at least 0.</param>
    /// <param name="slowestHz">Lowest frequency of the wander [Hz], above 0.</param>
    /// <param name="fastestHz">Highest frequency of the wander [Hz], above the lowest.</param>
    public WanderingPhase(KeyedRandom random, Course frequencyHz, double spreadHz, double slowestHz, double fastestHz)
    {
        ArgumentNullException.ThrowIfNull(frequencyHz);
        _frequencyHz = frequencyHz;
        _isChanging = !frequencyHz.IsConstant;
        _isSteady = spreadHz == 0;
        _startTurns = random.Uniform(0);
        double logRange = PortableMath.Log(fastestHz / slowestHz);
        _deviationHz = spreadHz * Math.Sqrt(2.0 / Count);
        Span<double> hz = stackalloc double[Count];
        Span<double> startTurns = stackalloc double[Count];
        Span<double> depthTurns = stackalloc double[Count];
        for (int i = 0; i < Count; i++)
        {
            double place = (i + random.Uniform(1 + (2 * i))) / Count;
            hz[i] = slowestHz * PortableMath.Exp(logRange * place);
            startTurns[i] = random.Uniform(2 + (2 * i));
            depthTurns[i] = _deviationHz / (2 * Math.PI * hz[i]);
        }

        _first = Slow.Of(hz, startTurns, depthTurns, 0);
        _second = Slow.Of(hz, startTurns, depthTurns, Vector256<double>.Count);
    }

    /// <summary>Mean frequency [Hz], before its first change.</summary>
    public double FrequencyHz => _frequencyHz.BaseValue;

    /// <summary>Phase at a time [turns], not reduced: grows with time.</summary>
    /// <param name="seconds">Time [s].</param>
    public double Turns(double seconds)
    {
        double turns = (_isChanging ? _frequencyHz.Integral(seconds) : _frequencyHz.BaseValue * seconds) + _startTurns;
        if (_isSteady)
        {
            return turns;
        }

        // Four at a time, summed one after the other: the same bits as one by one.
        PortableMath.SinCosTurns(_first.Turns(seconds), out Vector256<double> first, out _);
        PortableMath.SinCosTurns(_second.Turns(seconds), out Vector256<double> second, out _);
        return Added(Added(turns, _first.DepthTurns * first), _second.DepthTurns * second);
    }

    /// <summary>Phase and frequency at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="turns">Receives the phase [turns], the same as <see cref="Turns"/>.</param>
    /// <param name="hertz">Receives the frequency [Hz], the derivative of the phase.</param>
    public void At(double seconds, out double turns, out double hertz)
    {
        turns = (_isChanging ? _frequencyHz.Integral(seconds) : _frequencyHz.BaseValue * seconds) + _startTurns;
        hertz = _frequencyHz.Value(seconds);
        if (_isSteady)
        {
            return;
        }

        PortableMath.SinCosTurns(_first.Turns(seconds), out Vector256<double> firstSin, out Vector256<double> firstCos);
        PortableMath.SinCosTurns(_second.Turns(seconds), out Vector256<double> secondSin, out Vector256<double> secondCos);
        turns = Added(Added(turns, _first.DepthTurns * firstSin), _second.DepthTurns * secondSin);
        hertz = Added(Added(hertz, firstCos * _deviationHz), secondCos * _deviationHz);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Added(double sum, Vector256<double> terms) =>
        sum + terms.GetElement(0) + terms.GetElement(1) + terms.GetElement(2) + terms.GetElement(3);

    // Four slow sines.
    private readonly record struct Slow(Vector256<double> Hz, Vector256<double> StartTurns, Vector256<double> DepthTurns)
    {
        public static Slow Of(ReadOnlySpan<double> hz, ReadOnlySpan<double> startTurns, ReadOnlySpan<double> depthTurns, int from) =>
            new(Vector256.Create(hz[from..]), Vector256.Create(startTurns[from..]), Vector256.Create(depthTurns[from..]));

        public Vector256<double> Turns(double seconds) => (Hz * seconds) + StartTurns;
    }
}
