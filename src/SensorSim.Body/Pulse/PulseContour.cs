// SPDX-License-Identifier: MIT
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pulse;

/// <summary>The shape of a pulse: forward wave, reflected wave and diastolic run-off, local in seconds.</summary>
/// <remarks>
/// <para>The stiffness index says where the diastolic peak lies (person's height / index after the systolic peak; Millasseau et al.,
/// Clin Sci 103:371, 2002, from memory), the reflection index how high. Neighbouring waves pull the peak of the sum away from the peak
/// of the reflected wave alone; fitted corrections take this back, so that the indices measured on a steady train at 60 bpm at the
/// finger are those of the knobs: stiffness within 2 %, reflection within 1 point, for peaks 0.21 to 0.34 s apart. Nearer waves merge:
/// there is no notch to measure.</para>
/// <para>All times follow the ejection time 413 − 1.7 × rate ms (Weissler 1968, from memory), 311 ms at 60 bpm. The sizes are a choice
/// of this project. A contour costs some nanoseconds to make: a live knob may make one for each beat.</para>
/// </remarks>
public readonly struct PulseContour
{
    private const double EjectionAt60BpmMs = 311;
    private const double ForwardToPeakSeconds = 0.18;
    private const double ReflectedToPeakSeconds = 0.2;
    private const double RunOffStartSeconds = 0.1;
    private const double RunOffToPeakSeconds = 0.36;
    private const double ReflectedHeight = 0.28;
    private const double RunOffHeight = 0.25;

    // Peaks nearer or farther apart than those of the fit keep the correction of its edge.
    private const double NearestSeconds = 0.17;
    private const double FarthestSeconds = 0.35;

    private readonly double _forwardToPeakSeconds;
    private readonly double _reflectedStartSeconds;
    private readonly double _reflectedToPeakSeconds;
    private readonly double _size;

    /// <summary>Makes the shape that a scenario begins with.</summary>
    /// <param name="values">Values of the scenario.</param>
    public PulseContour(KeyValues values)
        : this(
            PulseSite.Named((values ?? throw new ArgumentNullException(nameof(values)))[SiteKeys.Site]),
            values[PulseKeys.StiffnessIndexMPerS],
            values[PulseKeys.ReflectionIndexPercent],
            values[SubjectKeys.HeightM])
    {
    }

    /// <summary>Makes a shape.</summary>
    /// <param name="site">Where the sensor sits.</param>
    /// <param name="stiffnessIndexMPerS">Stiffness index [m/s], above 0.</param>
    /// <param name="reflectionIndexPercent">Reflection index [%] at the finger, above 0; other sites see a share of it.</param>
    /// <param name="heightM">Height of the person [m].</param>
    public PulseContour(in PulseSite site, double stiffnessIndexMPerS, double reflectionIndexPercent, double heightM)
    {
        PeakToPeakSeconds = heightM / stiffnessIndexMPerS;
        double reflection = reflectionIndexPercent * 0.01;
        double u = 10 * (Math.Max(NearestSeconds, Math.Min(FarthestSeconds, PeakToPeakSeconds)) - 0.243);
        double v = (1 / reflection) - 2;
        double late = Fit(u, v, 0.01649, -0.01731, 0.01928, -0.00664, 0.00533, -0.0161, 0.00853);
        double size = Fit(u, v, 1.8774, 0.2529, -0.1112, 0.0587, -0.0939, 0.1287, -0.0655);
        _forwardToPeakSeconds = ForwardToPeakSeconds * site.Rise;
        _reflectedToPeakSeconds = ReflectedToPeakSeconds * site.Rounding;
        _reflectedStartSeconds = _forwardToPeakSeconds + PeakToPeakSeconds + late - _reflectedToPeakSeconds;
        _size = reflection * size * site.Reflection;
    }

    /// <summary>Time from systolic to diastolic peak at 60 bpm [s].</summary>
    public double PeakToPeakSeconds { get; }

    /// <summary>Time from the start to the peak of the forward wave at 60 bpm [s].</summary>
    internal double ForwardToPeak => _forwardToPeakSeconds;

    // First guesses for the solver, after the start, for a scale of 1 [s]; shares of the forward wave's time to its peak.
    internal double SteepestGuess => 0.5945 * _forwardToPeakSeconds;

    internal double FootGuess => 0.3545 * _forwardToPeakSeconds;

    internal double CurvatureGuess => 0.3595 * _forwardToPeakSeconds;

    internal double PeakGuess => 1.022 * _forwardToPeakSeconds;

    // Where the slope after the systolic peak is largest.
    internal double ShoulderGuess =>
        PeakGuess + (0.775 * (_reflectedStartSeconds + _reflectedToPeakSeconds - _forwardToPeakSeconds));

    /// <summary>Factor of all times at a rate.</summary>
    /// <param name="rateBpm">Heart rate [bpm]; below 30 and above 180 bpm the factor stays.</param>
    public static double Scale(double rateBpm) => (413 - (1.7 * Math.Max(30, Math.Min(180, rateBpm)))) / EjectionAt60BpmMs;

    /// <summary>The components of a pulse.</summary>
    /// <param name="startSeconds">Where it starts [s].</param>
    /// <param name="scale">Factor of all times, see <see cref="Scale"/>.</param>
    /// <param name="height">Height of the forward wave [pulse units].</param>
    public PulseBeat Lay(double startSeconds, double scale, double height)
    {
        PulseBeat beat = default;
        double share = _size * height;
        beat[0] = new PulseWave(startSeconds, _forwardToPeakSeconds * scale, height, 2);
        beat[1] = new PulseWave(startSeconds + (_reflectedStartSeconds * scale), _reflectedToPeakSeconds * scale, ReflectedHeight * share, 3);
        beat[2] = new PulseWave(startSeconds + (RunOffStartSeconds * scale), RunOffToPeakSeconds * scale, RunOffHeight * share, 1);
        return beat;
    }

    // Least squares over trains at 60 bpm with indices of 4.9 to 9 m/s at 1.7 m and 40 to 80 %.
    private static double Fit(double u, double v, double one, double u1, double u2, double u3, double v1, double uv, double uuv) =>
        one + (u * (u1 + (u * (u2 + (u * u3))))) + (v * (v1 + (u * (uv + (u * uuv)))));
}
