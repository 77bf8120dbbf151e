// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Asks that a detector does not do something, and tells what it did when it does.</summary>
internal sealed class OppositeConstraint(IConstraint asked) : DetectorConstraint
{
    /// <inheritdoc/>
    public override string Description => $"not {asked.Description}";

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(TActual actual) => new Result(this, asked.ApplyTo(actual));

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(Func<TActual> code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return new Result(this, asked.ApplyTo(code));
    }

    private sealed class Result(OppositeConstraint constraint, ConstraintResult asked)
        : DetectorResult(constraint, asked.ActualValue, !asked.IsSuccess && !TellsOfBroken(asked), TellsOfBroken(asked))
    {
        public override void WriteActualValueTo(MessageWriter writer) => asked.WriteActualValueTo(writer);

        public override void WriteAdditionalLinesTo(MessageWriter writer) => asked.WriteAdditionalLinesTo(writer);
    }
}
