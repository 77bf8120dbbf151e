// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Processes;

/// <summary>The phase of an oscillation whose mean frequency follows a course and that wanders slowly about it; a closed form.</summary>
/// <remarks>
/// Phase = integral of the course + start + the slow sines of <see cref="WanderingPhase"/>, drawn alike: with a course that stays the
/// same, the two are the same phase within rounding. Safe for several threads.
/// </remarks>
public sealed class FollowingPhase
{
    private const int Count = 8;
    private readonly Course _frequencyHz;
    private readonly double _startTurns;
    private readonly bool _isSteady;
    private readonly double _deviationHz;
    private readonly double[] _slowHz = new double[Count];
    private readonly double[] _slowStartTurns = new double[Count];
    private readonly double[] _depthTurns = new double[Count];

    /// <summary>Creates an oscillation.</summary>
    /// <param name="random">Its own source; draws 0 to 16 are used.</param>
    /// <param name="frequencyHz">Course of the mean frequency [Hz], values of at least 0.</param>
    /// <param name="spreadHz">Standard deviation of the frequency about its course [Hz], at least 0.</param>
    /// <param name="slowestHz">Lowest frequency of the wander [Hz], above 0.</param>
    /// <param name="fastestHz">Highest frequency of the wander [Hz], above the lowest.</param>
    public FollowingPhase(KeyedRandom random, Course frequencyHz, double spreadHz, double slowestHz, double fastestHz)
    {
        ArgumentNullException.ThrowIfNull(frequencyHz);
        _frequencyHz = frequencyHz;
        _isSteady = spreadHz == 0;
        _startTurns = random.Uniform(0);
        _deviationHz = spreadHz * Math.Sqrt(2.0 / Count);
        double logRange = PortableMath.Log(fastestHz / slowestHz);
        for (int i = 0; i < Count; i++)
        {
            double place = (i + random.Uniform(1 + (2 * i))) / Count;
            _slowHz[i] = slowestHz * PortableMath.Exp(logRange * place);
            _slowStartTurns[i] = random.Uniform(2 + (2 * i));
            _depthTurns[i] = _deviationHz / (2 * Math.PI * _slowHz[i]);
        }
    }

    /// <summary>Phase and frequency at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="turns">Receives the phase [turns], not reduced: grows with time.</param>
    /// <param name="hertz">Receives the frequency [Hz], the derivative of the phase.</param>
    public void At(double seconds, out double turns, out double hertz)
    {
        turns = _frequencyHz.Integral(seconds) + _startTurns;
        hertz = _frequencyHz.Value(seconds);
        if (_isSteady)
        {
            return;
        }

        for (int i = 0; i < Count; i++)
        {
            PortableMath.SinCosTurns((_slowHz[i] * seconds) + _slowStartTurns[i], out double sin, out double cos);
            turns += _depthTurns[i] * sin;
            hertz += _deviationHz * cos;
        }
    }
}
