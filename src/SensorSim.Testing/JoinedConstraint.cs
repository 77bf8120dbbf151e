// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Asks for both of two things, or for one of them, and tells of what decided.</summary>
internal sealed class JoinedConstraint(IConstraint left, IConstraint right, bool areBoth) : DetectorConstraint
{
    /// <inheritdoc/>
    public override string Description => $"{left.Description} {(areBoth ? "and" : "or")} {right.Description}";

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(TActual actual) => Join(left.ApplyTo(actual), () => right.ApplyTo(actual));

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(Func<TActual> code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return Join(left.ApplyTo(code), () => right.ApplyTo(code));
    }

    private Result Join(ConstraintResult first, Func<ConstraintResult> second)
    {
        if (first.IsSuccess != areBoth)
        {
            return new Result(this, first, [first]);
        }

        ConstraintResult other = second();
        return new Result(this, other, other.IsSuccess == first.IsSuccess ? [first, other] : [other]);
    }

    private sealed class Result(JoinedConstraint constraint, ConstraintResult deciding, ConstraintResult[] told)
        : DetectorResult(constraint, deciding.ActualValue, deciding.IsSuccess, told.Any(TellsOfBroken))
    {
        public override void WriteActualValueTo(MessageWriter writer)
        {
            ArgumentNullException.ThrowIfNull(writer);
            for (int i = 0; i < told.Length; i++)
            {
                writer.Write(i == 0 ? "" : "; ");
                told[i].WriteActualValueTo(writer);
            }
        }

        public override void WriteAdditionalLinesTo(MessageWriter writer)
        {
            foreach (ConstraintResult result in told)
            {
                result.WriteAdditionalLinesTo(writer);
            }
        }
    }
}
