// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.EcgNoise;

/// <summary>A kind of electrode motion: forms and durations of its transients, and what follows from them in closed form.</summary>
/// <remarks>
/// Each transient has one of the forms, all equally likely, a duration even between the shortest and the longest, a sign by chance and a size
/// of 0.5 + U, U even between 0 and 1. Over trains of them at a rate λ (Campbell's theorem, Rice 1944): power λ E[size²] E[∫h²], fourth
/// cumulant λ E[size⁴] E[∫h⁴].
/// </remarks>
internal sealed class MotionKind
{
    /// <summary>Transients in the band of the baseline and of T waves.</summary>
    public static readonly MotionKind Slow = new([TransientShape.Biphasic, TransientShape.Exponential], 0.08, 0.5);

    /// <summary>Transients in the band of the QRS complex.</summary>
    public static readonly MotionKind Sharp = new([TransientShape.ThreePhase], 0.06, 0.12);

    /// <summary>Mean square of the size.</summary>
    public const double SizeSquare = 13.0 / 12;

    /// <summary>Mean fourth power of the size: (1.5⁵ − 0.5⁵)/5.</summary>
    public const double SizeFourth = 1.5125;

    private const int Durations = 32;
    private readonly TransientShape[] _shapes;
    private readonly double _shortest;
    private readonly double _longest;

    private MotionKind(TransientShape[] shapes, double shortestSeconds, double longestSeconds)
    {
        _shapes = shapes;
        _shortest = shortestSeconds;
        _longest = longestSeconds;
        double mean = 0.5 * (shortestSeconds + longestSeconds);
        SquareSeconds = shapes.Average(s => TransientShapes.Square(s) * mean / TransientShapes.WidthsOfDuration(s));
        FourthSeconds = shapes.Average(s => TransientShapes.Fourth(s) * mean / TransientShapes.WidthsOfDuration(s));
        ReachSeconds = shapes.Max(s => (TransientShapes.End(s) - TransientShapes.Begin(s)) * longestSeconds / TransientShapes.WidthsOfDuration(s));
    }

    /// <summary>Mean of ∫h² dt at a peak of 1 [s].</summary>
    public double SquareSeconds { get; }

    /// <summary>Mean of ∫h⁴ dt at a peak of 1 [s].</summary>
    public double FourthSeconds { get; }

    /// <summary>How long a transient is followed at most [s].</summary>
    public double ReachSeconds { get; }

    /// <summary>Peak of a middling transient when the train has an rms of 1.</summary>
    /// <param name="perSecond">Transients in a second.</param>
    public double PeakOfRms(double perSecond) => 1 / Math.Sqrt(perSecond * SizeSquare * SquareSeconds);

    /// <summary>Excess kurtosis of the train.</summary>
    /// <param name="perSecond">Transients in a second.</param>
    public double ExcessKurtosis(double perSecond)
    {
        double power = SizeSquare * SquareSeconds;
        return SizeFourth * FourthSeconds / (perSecond * power * power);
    }

    /// <summary>Form and duration of a transient from two even draws.</summary>
    /// <param name="ofShape">Draw for the form.</param>
    /// <param name="ofDuration">Draw for the duration.</param>
    /// <param name="durationSeconds">Receives the duration [s].</param>
    public TransientShape Draw(double ofShape, double ofDuration, out double durationSeconds)
    {
        durationSeconds = _shortest + ((_longest - _shortest) * ofDuration);
        return _shapes[Math.Min(_shapes.Length - 1, (int)(ofShape * _shapes.Length))];
    }

    /// <summary>Size of a transient from an even draw: sign by chance, magnitude 0.5 to 1.5.</summary>
    /// <param name="draw">The draw.</param>
    public static double Size(double draw)
    {
        double place = (2 * draw) - 1;
        return place < 0 ? place - 0.5 : place + 0.5;
    }

    /// <summary>Power density of a train of rms 1 at a frequency [1/Hz], one-sided: 2 E[|H|²] / E[∫h²].</summary>
    /// <param name="hertz">Frequency [Hz].</param>
    public double Density(double hertz)
    {
        double sum = 0;
        foreach (TransientShape shape in _shapes)
        {
            double perDuration = 1 / TransientShapes.WidthsOfDuration(shape);
            for (int i = 0; i < Durations; i++)
            {
                double width = perDuration * (_shortest + ((_longest - _shortest) * (i + 0.5) / Durations));
                sum += width * width * TransientShapes.TransformPower(shape, 2 * Math.PI * hertz * width);
            }
        }

        return 2 * sum / (Durations * _shapes.Length) / SquareSeconds;
    }

    /// <summary>Share of the power between two frequencies.</summary>
    /// <param name="lowHz">Lower end [Hz].</param>
    /// <param name="highHz">Upper end [Hz].</param>
    public double Share(double lowHz, double highHz) => Quadrature.Integrate(Density, lowHz, highHz);
}
