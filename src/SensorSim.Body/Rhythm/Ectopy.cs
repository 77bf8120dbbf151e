// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Decides after which sinus beats premature beats follow, and how soon. Draw n belongs to sinus impulse n.</summary>
internal sealed class Ectopy
{
    private readonly ChoiceCourse _ventricularPattern;
    private readonly ChoiceCourse _atrialPattern;
    private readonly Course _ventricularPercent;
    private readonly Course _atrialPercent;
    private readonly Course _ventricularCoupling;
    private readonly Course _atrialCoupling;
    private readonly Course _spread;
    private readonly KeyedRandom _ventricular;
    private readonly KeyedRandom _atrial;
    private readonly KeyedRandom _coupling;

    public Ectopy(KeyValues values, ulong seed)
    {
        _ventricularPattern = values.Course(EctopyKeys.VentricularPattern);
        _atrialPattern = values.Course(EctopyKeys.AtrialPattern);
        _ventricularPercent = values.Course(EctopyKeys.VentricularPercent);
        _atrialPercent = values.Course(EctopyKeys.AtrialPercent);
        _ventricularCoupling = values.Course(EctopyKeys.VentricularCouplingPercent);
        _atrialCoupling = values.Course(EctopyKeys.AtrialCouplingPercent);
        _spread = values.Course(EctopyKeys.CouplingSpreadPercent);
        _ventricular = new KeyedRandom(seed, "ectopy.ventricular");
        _atrial = new KeyedRandom(seed, "ectopy.atrial");
        _coupling = new KeyedRandom(seed, "ectopy.coupling");
    }

    /// <summary>Whether a ventricular premature beat follows the present sinus beat.</summary>
    public bool IsVentricular(RhythmState state) => Follows(
        _ventricularPattern.Value(state.SinusSeconds), _ventricularPercent, _ventricular, state, state.SinceVentricular);

    /// <summary>Whether an atrial premature beat follows the present sinus beat.</summary>
    public bool IsAtrial(RhythmState state) => Follows(
        _atrialPattern.Value(state.SinusSeconds), _atrialPercent, _atrial, state, state.SinceAtrial);

    /// <summary>Coupling interval of a ventricular premature beat, as a share of the sinus interval.</summary>
    public double VentricularCoupling(RhythmState state) => Coupling(_ventricularCoupling, state);

    /// <summary>Coupling interval of an atrial premature beat, as a share of the sinus interval.</summary>
    public double AtrialCoupling(RhythmState state) => Coupling(_atrialCoupling, state);

    // The draw is normal; what would leave the interval between two beats is held inside it.
    private double Coupling(Course percent, RhythmState state)
    {
        double share = percent.Value(state.SinusSeconds) + (_spread.Value(state.SinusSeconds) * _coupling.Normal(state.SinusIndex));
        return 0.01 * Math.Max(25, Math.Min(97, share));
    }

    private static bool Follows(string pattern, Course percent, KeyedRandom draws, RhythmState state, int since) => pattern switch
    {
        "none" => false,
        "random" => draws.Uniform(state.SinusIndex) < 0.01 * percent.Value(state.SinusSeconds),
        "bigeminy" => since >= 1,
        "trigeminy" => since >= 2,
        _ => since >= 3,
    };
}
