// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>How hard the body moves, against its reference gait: a course in closed form from the knobs, without any draw.</summary>
/// <remarks>
/// Root of the mean square of the acceleration along all axes, gravity left out, over that of the reference gait (the first that occurs,
/// walking if none does, steady, before the first change): 1 there, 0 at rest. Mean squares: lines of the gait a²/2 each; trains of
/// transients rate × mean square of the peak × integral of the squared transient (Campbell's theorem); tremor (0.58 g² with its part along
/// y) and vehicle by their rms.
/// Immutable, and safe for several threads.
/// </remarks>
public sealed class MovementIntensity
{
    // ∫ h² dx of x²(3 − x)e^(−x) at a peak of 1, by ∫ xⁿ e^(−2x) dx = n! / 2^(n+1): 9/8 over the squared height at 3 − √3.
    private const double TransientPower = 1.8321057479094425;

    // Mean square of 0.5 + U, U even between 0 and 1.
    private const double SizePower = 13.0 / 12;

    // Three strokes a second on average, along (0.3, −0.4 to 0.4, 1); τ 6 ms.
    private const double TypingPower = 3 * SizePower * (0.09 + (0.16 / 3) + 1) * TransientPower * 0.006;

    // One tap a minute, along (±0.3, ±0.3, −1); τ 8 ms.
    private const double TapPower = SizePower * ((2 * 0.09 / 3) + 1) * TransientPower * 0.008 / 60;

    // One gesture a minute: ∫ (1 − u²)⁴(7u² − 1)² du = 3072/5005 over −1 to 1, mean half length 0.7 s, mean square of 0.6 + 0.8 U.
    private const double GesturePower = 3072.0 / 5005 * 0.7 * (1 + (0.64 / 12)) / 60;

    private const int Lines = 60;
    private readonly GaitStyle[] _styles;
    private readonly double[] _stylePower;
    private readonly Course _typingG;
    private readonly Course _tapG;
    private readonly Course _tapsPerMin;
    private readonly Course _gestureG;
    private readonly Course _gesturesPerMin;
    private readonly Course _tremorG;
    private readonly Course _vehicleG;
    private readonly double _perReferencePower;
    private readonly bool _hasHand;

    /// <summary>Creates the intensity from the knobs of movement.</summary>
    /// <param name="values">Values of the scenario.</param>
    public MovementIntensity(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var gait = new Gait(values, 0);
        _styles = [.. gait.Styles];
        _stylePower = [.. _styles.Select(s => gait.PowerGain * UnitPower(s.Shape))];
        double amplitude = gait.Reference.BaseAmplitudeG > 0 ? gait.Reference.BaseAmplitudeG : gait.Reference.Shape.AmplitudeG;
        _perReferencePower = 1 / (amplitude * amplitude * gait.PowerGain * UnitPower(gait.Reference.Shape));
        _typingG = values.Course(HandMovementKeys.TypingG);
        _tapG = values.Course(HandMovementKeys.TapG);
        _tapsPerMin = values.Course(HandMovementKeys.TapsPerMin);
        _gestureG = values.Course(HandMovementKeys.GestureG);
        _gesturesPerMin = values.Course(HandMovementKeys.GesturesPerMin);
        _tremorG = values.Course(HandMovementKeys.TremorG);
        _vehicleG = values.Course(HandMovementKeys.VehicleGRms);
        Course[] hand = [_typingG, _tapsPerMin, _gesturesPerMin, _tremorG, _vehicleG];
        _hasHand = hand.Any(c => !c.IsConstant || c.BaseValue != 0);
        ChoiceCourse activity = values.Course(MovementKeys.Activity);
        Courses =
        [
            .. hand, _tapG, _gestureG, values.Course(MovementKeys.AmplitudeG),
            new Course(0, activity.Changes.Select(c => new CourseChange(c.AtSeconds, ChangeKind.Ramp, 0, GaitStyle.ChangeSeconds)), []),
        ];
        IsConstant = Courses.All(c => c.IsConstant);
        IsOff = !_hasHand && _styles.All(s => s.IsOff);
    }

    /// <summary>Courses whose changes are the only times at which the intensity changes, up to a quarter of a second later.</summary>
    public IReadOnlyList<Course> Courses { get; }

    /// <summary>Whether the intensity never changes.</summary>
    public bool IsConstant { get; }

    /// <summary>Whether nothing ever moves.</summary>
    public bool IsOff { get; }

    /// <summary>The intensity at a time: 1 in the reference gait, 0 at rest.</summary>
    /// <param name="seconds">Body time [s].</param>
    public double At(double seconds)
    {
        double power = _hasHand ? HandPower(seconds) : 0;
        for (int i = 0; i < _styles.Length; i++)
        {
            if (!_styles[i].IsOff)
            {
                double size = _styles[i].SizeG(seconds);
                power += size * size * _stylePower[i];
            }
        }

        return Math.Sqrt(power * _perReferencePower);
    }

    private static double UnitPower(GaitShape shape)
    {
        double power = 0;
        for (int axis = 0; axis < 3; axis++)
        {
            for (int multiple = 1; multiple <= Lines; multiple++)
            {
                shape.Line(axis, multiple, out double sine, out double cosine);
                power += 0.5 * ((sine * sine) + (cosine * cosine));
            }
        }

        return power;
    }

    private double HandPower(double seconds)
    {
        static double Square(Course course, double at) => course.Value(at) * course.Value(at);
        return (TypingPower * Square(_typingG, seconds))
            + (TapPower * Math.Max(0, _tapsPerMin.Value(seconds)) * Square(_tapG, seconds))
            + (GesturePower * Math.Max(0, _gesturesPerMin.Value(seconds)) * Square(_gestureG, seconds))
            + (0.58 * Square(_tremorG, seconds))
            + (3 * Square(_vehicleG, seconds));
    }
}
