// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Testing;

/// <summary>
/// Asks that a detector's answers to a case of a set lie in its windows of acceptance, which follow from truth and requirement and never from a detector.
/// </summary>
/// <remarks>
/// The library of this project passes where the plan lists a deviation of it with a reason; nobody else does. A calibration of the case reaches the library and programs;
/// a class and a C library cannot be told, and a program that refuses one is run without.
/// </remarks>
public sealed class AcceptanceConstraint : DetectorConstraint
{
    private readonly VectorCase _case;

    internal AcceptanceConstraint(VectorCase vectorCase) => _case = vectorCase;

    /// <inheritdoc/>
    public override string Description => $"acceptance of the case {_case.Name}, {string.Join("; ", _case.Requirements.Select(r => $"{r.Id}: {r.Text} ({r.Clause})"))}";

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(TActual actual) => Apply(UnderTest.Of(actual) ?? throw new ArgumentException(
        $"{actual?.GetType().Name ?? "null"} is nothing that can be tested here; give a detector (UnderTest, IDetector, IDetectorFactory or a function that makes one) or answers (TimedMark).",
        nameof(actual)));

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(Func<TActual> code)
    {
        ArgumentNullException.ThrowIfNull(code);
        if (!typeof(IDetector).IsAssignableFrom(typeof(TActual)))
        {
            return ApplyTo(code());
        }

        using UnderTest detector = UnderTest.Made(() => (IDetector)code()!);
        return Apply(detector);
    }

    private Result Apply(UnderTest under)
    {
        if (under.HasAnswers)
        {
            return new Result(this, under, _case, CaseCheck.Of(_case.SetCase, under.AnswersOf(_case).Marks), "");
        }

        DetectorCalibration? calibration = _case.Planned.Calibration?.Calibration;
        try
        {
            return new Result(this, under, _case, Run(under, calibration), "");
        }
        catch (NotSupportedException e) when (calibration is not null && under.IsProgram)
        {
            // A program need not take a calibration; then it is run without, as a class is, and the message says so. What it refuses besides it refuses again.
            return new Result(this, under, _case, Run(under, null), $" (without the calibration of the case: {e.Message})");
        }
        catch (NotSupportedException e)
        {
            throw new NotSupportedException($"case {_case.Name}: {e.Message}", e);
        }
    }

    private CaseCheck Run(UnderTest under, DetectorCalibration? calibration)
    {
        using IDetector detector = under.Create(calibration);
        return CaseCheck.Run(_case.SetCase, detector, under.IsOwnLibrary);
    }

    private sealed class Result(AcceptanceConstraint constraint, UnderTest under, VectorCase vectorCase, CaseCheck check, string note)
        : DetectorResult(constraint, under, !IsDead(check) && !Faults(vectorCase, check).Any(), IsDead(check))
    {
        public override void WriteActualValueTo(MessageWriter writer) => writer.Write(IsDead(check)
            ? $"{under} broke: {check.Outcome!.VerdictReason}"
            : string.Join("; ", Faults(vectorCase, check).Select(v => $"{v.RequirementId}: {v.Sentence}")) is { Length: > 0 } faults ? faults : "all met");

        public override void WriteAdditionalLinesTo(MessageWriter writer)
        {
            string about = vectorCase.Planned.About.Length == 0 ? "" : $", {vectorCase.Planned.About}";
            writer.WriteLine($"  Tested:   {under} on the case {vectorCase.Name}{about}{note}");
            foreach (RequirementVerdict verdict in Faults(vectorCase, check).Where(v => v.FirstFaultNs is not null))
            {
                writer.WriteLine($"  Look at:  {verdict.RequirementId} at {FigureText.Seconds(verdict.FirstFaultNs!.Value)} of device time");
            }

            writer.WriteLine($"  By hand:  sensorsim vectors compare {ByHand.Word(vectorCase.Folder)} {ByHand.CompareOptions(under, vectorCase)}".TrimEnd());
        }

        // A detector that should be silent may be: only what was asked of it counts.
        private static bool IsDead(CaseCheck check) => check.Outcome is { Verdict: not (Verdict.Answered or Verdict.Silent) };

        private static IEnumerable<RequirementVerdict> Faults(VectorCase vectorCase, CaseCheck check) =>
            check.Verdicts.Where(v => v.IsFault && vectorCase.Requirements.Any(r => r.Id == v.RequirementId));
    }
}
