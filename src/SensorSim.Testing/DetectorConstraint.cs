// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>A constraint on a detector, of any of the kinds of this package.</summary>
/// <remarks>
/// <c>!</c>, <c>&amp;</c> and <c>|</c> keep what the constraint has to say: figures, seeds, places, the command line. A detector that broke (crashed, hung, lied, babbled,
/// was late) meets neither a constraint nor its opposite; one that was silent just does not do what is asked. NUnit's own <c>Not</c> and <c>Or</c> turn results round and join
/// them without that.
/// </remarks>
public abstract class DetectorConstraint : Constraint
{
    private protected DetectorConstraint()
    {
    }

    /// <summary>The opposite: asks that a detector does not do it.</summary>
    /// <param name="asked">What it must not do.</param>
    public static DetectorConstraint operator !(DetectorConstraint asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        return new OppositeConstraint(Resolved(asked));
    }

    /// <summary>Asks for both; the second is looked at only when the first is met.</summary>
    /// <param name="left">The first.</param>
    /// <param name="right">The second, also one of NUnit's.</param>
    public static DetectorConstraint operator &(DetectorConstraint left, Constraint right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return new JoinedConstraint(Resolved(left), Resolved(right), areBoth: true);
    }

    /// <summary>Asks for one of two; the second is looked at only when the first is not met.</summary>
    /// <param name="left">The first.</param>
    /// <param name="right">The second, also one of NUnit's.</param>
    public static DetectorConstraint operator |(DetectorConstraint left, Constraint right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return new JoinedConstraint(Resolved(left), Resolved(right), areBoth: false);
    }

    // One that stands in an expression (x.And.Matches(y)) is the whole expression.
    private static IConstraint Resolved(Constraint constraint) => ((IResolveConstraint)constraint).Resolve();
}

/// <summary>Result of a constraint on a detector.</summary>
internal abstract class DetectorResult(IConstraint constraint, object? actual, bool isMet, bool isBroken) : ConstraintResult(constraint, actual, isMet)
{
    /// <summary>Whether the detector broke, so that nothing can be said of what it does.</summary>
    public bool IsBroken => isBroken;

    /// <summary>Whether a result tells of a detector that broke.</summary>
    public static bool TellsOfBroken(ConstraintResult result) => result is DetectorResult { IsBroken: true };
}
