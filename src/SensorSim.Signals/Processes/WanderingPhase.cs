// SPDX-License-Identifier: MIT
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
    private readonly double[] _slowHz = new double[Count];
    private readonly double[] _slowStartTurns = new double[Count];
    private readonly double[] _depthTurns = new double[Count];

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
        for (int i = 0; i < Count; i++)
        {
            double place = (i + random.Uniform(1 + (2 * i))) / Count;
            _slowHz[i] = slowestHz * PortableMath.Exp(logRange * place);
            _slowStartTurns[i] = random.Uniform(2 + (2 * i));
            _depthTurns[i] = _deviationHz / (2 * Math.PI * _slowHz[i]);
        }
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
        for (int i = 0; i < Count; i += Vector256<double>.Count)
        {
            Vector256<double> slow = (Vector256.Create<double>(_slowHz.AsSpan(i)) * seconds) + Vector256.Create<double>(_slowStartTurns.AsSpan(i));
            PortableMath.SinCosTurns(slow, out Vector256<double> sin, out _);
            Vector256<double> terms = Vector256.Create<double>(_depthTurns.AsSpan(i)) * sin;
            turns += terms.GetElement(0);
            turns += terms.GetElement(1);
            turns += terms.GetElement(2);
            turns += terms.GetElement(3);
        }

        return turns;
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

        for (int i = 0; i < Count; i += Vector256<double>.Count)
        {
            Vector256<double> slow = (Vector256.Create<double>(_slowHz.AsSpan(i)) * seconds) + Vector256.Create<double>(_slowStartTurns.AsSpan(i));
            PortableMath.SinCosTurns(slow, out Vector256<double> sin, out Vector256<double> cos);
            Vector256<double> turnTerms = Vector256.Create<double>(_depthTurns.AsSpan(i)) * sin;
            Vector256<double> hertzTerms = cos * _deviationHz;
            for (int lane = 0; lane < Vector256<double>.Count; lane++)
            {
                turns += turnTerms.GetElement(lane);
                hertz += hertzTerms.GetElement(lane);
            }
        }
    }
}
