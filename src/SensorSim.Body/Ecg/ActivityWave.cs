// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Ecg;

/// <summary>Waves of a rhythm that follow no beat: an envelope times a sum of sines of multiples of one phase; a closed form.</summary>
internal sealed class ActivityWave
{
    // A step for the phase's slope [s]: the phase is known to 1e-10 turns after days, so its slope to 1e-7 of itself.
    private const double SlopeStepSeconds = 1e-3;

    private readonly ActivityEnvelope _envelope;
    private readonly WanderingPhase _phase;
    private readonly bool _isSteady;
    private readonly double[] _multiples;
    private readonly double[] _sine;
    private readonly double[] _cosine;

    /// <summary>Creates the waves.</summary>
    /// <param name="envelope">When they are there.</param>
    /// <param name="phase">Their phase.</param>
    /// <param name="isSteady">Whether the phase is a straight line throughout.</param>
    /// <param name="multiples">Multiples of the phase, four or eight.</param>
    /// <param name="sine">Factors of their sines [mV].</param>
    /// <param name="cosine">Factors of their cosines [mV].</param>
    public ActivityWave(ActivityEnvelope envelope, WanderingPhase phase, bool isSteady, double[] multiples, double[] sine, double[] cosine)
    {
        _envelope = envelope;
        _phase = phase;
        _isSteady = isSteady;
        _multiples = multiples;
        _sine = sine;
        _cosine = cosine;
        double omega = 0;
        for (int i = 0; i < multiples.Length; i++)
        {
            MostMillivolts += Math.Sqrt((sine[i] * sine[i]) + (cosine[i] * cosine[i]));
            omega = Math.Max(omega, 2 * Math.PI * multiples[i] * phase.FrequencyHz * 1.05);
        }

        // The steepest slope and curvature of an edge are 1.875 and 5.78 over its length and its square.
        const double Edge = ActivityEnvelope.EdgeSeconds;
        MostCurvature = MostMillivolts * ((omega * omega) + (2 * omega * 1.875 / Edge) + (5.78 / (Edge * Edge)));
    }

    /// <summary>When the waves are there.</summary>
    public ActivityEnvelope Envelope => _envelope;

    /// <summary>No value is larger than this [mV].</summary>
    public double MostMillivolts { get; }

    /// <summary>No second derivative is larger than this [mV/s²].</summary>
    public double MostCurvature { get; }

    /// <summary>A band of eight lines about a frequency: its height and its frequency wander slowly.</summary>
    /// <param name="envelope">When the waves are there.</param>
    /// <param name="clock">Source of the start of the clock that drives the lines.</param>
    /// <param name="lines">Source of the lines; draws 0 to 15.</param>
    /// <param name="centreHz">Middle of the band [Hz].</param>
    /// <param name="widthHz">Standard deviation of the band [Hz]; one line from each eighth of the normal distribution.</param>
    /// <param name="peakToPeakMv">Peak-to-peak height of a sine of the same power [mV]; negative turns the waves upside down.</param>
    public static ActivityWave Band(
        ActivityEnvelope envelope, KeyedRandom clock, KeyedRandom lines, double centreHz, double widthHz, double peakToPeakMv)
    {
        const int Lines = 2 * FourSines.Count;
        double[] hz = new double[Lines];
        double[] sine = new double[Lines];
        double[] cosine = new double[Lines];

        // A sine of peak-to-peak height h has the power h²/8, each of the lines an eighth of it.
        double height = peakToPeakMv * 0.5 / Math.Sqrt((double)Lines);
        for (int i = 0; i < Lines; i++)
        {
            double place = (i + lines.Uniform(2 * i)) / Lines;
            hz[i] = centreHz + (widthHz * InverseNormal.FromWord(unchecked((uint)(long)Math.Floor(place * 4294967296.0))));
            PortableMath.SinCosTurns(lines.Uniform((2 * i) + 1), out double sin, out double cos);
            sine[i] = height * cos;
            cosine[i] = height * sin;
        }

        return new ActivityWave(envelope, new WanderingPhase(clock, 1, 0, 0.1, 1), isSteady: true, hz, sine, cosine);
    }

    /// <summary>Adds the voltage and its first two derivatives at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="value">Voltage so far [mV].</param>
    /// <param name="slope">First derivative so far [mV/s].</param>
    /// <param name="curvature">Second derivative so far [mV/s²].</param>
    /// <remarks>The change of the phase's own frequency is left out of the curvature: below a millionth of it.</remarks>
    public void Accumulate(double seconds, ref double value, ref double slope, ref double curvature)
    {
        double e = _envelope.Value(seconds, out double eSlope, out double eCurvature);
        if (e == 0)
        {
            return;
        }

        double turns = _phase.Turns(seconds);
        double hz = (_phase.Turns(seconds + SlopeStepSeconds) - _phase.Turns(seconds - SlopeStepSeconds)) / (2 * SlopeStepSeconds);
        double f = 0;
        double fSlope = 0;
        double fCurvature = 0;
        for (int i = 0; i < _multiples.Length; i++)
        {
            PortableMath.SinCosTurns(_multiples[i] * turns, out double sin, out double cos);
            double omega = 2 * Math.PI * _multiples[i] * hz;
            double line = (_sine[i] * sin) + (_cosine[i] * cos);
            f += line;
            fSlope += omega * ((_sine[i] * cos) - (_cosine[i] * sin));
            fCurvature -= omega * omega * line;
        }

        value += e * f;
        slope += (eSlope * f) + (e * fSlope);
        curvature += (eCurvature * f) + (2 * eSlope * fSlope) + (e * fCurvature);
    }

    /// <summary>What draws the sines on a grid.</summary>
    public FourSines[] CreateSines()
    {
        var groups = new FourSines[_multiples.Length / FourSines.Count];
        for (int i = 0; i < groups.Length; i++)
        {
            Range four = (i * FourSines.Count)..((i + 1) * FourSines.Count);
            groups[i] = new FourSines(_phase, _isSteady, _multiples.AsSpan(four), _sine.AsSpan(four), _cosine.AsSpan(four));
        }

        return groups;
    }
}
