// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Oxygen;
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.Agreement;

/// <summary>What the published criteria say of readings, in sentences: pressure and oxygen saturation.</summary>
/// <remarks>Sources and definitions: docs/scoring.md. A simulation meets neither the numbers nor the kinds of subjects that standards ask for.</remarks>
public static class AgreementText
{
    /// <summary>The sentences; empty for kinds that no standard speaks of.</summary>
    /// <param name="figures">The figures.</param>
    public static string Of(AgreementFigures figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        var sentences = new List<string>();
        if (figures.Criteria is PressureCriteria criteria)
        {
            sentences.Add(FormattableString.Invariant(
                $"Criterion 1 (|mean| ≤ 5, SD ≤ 8 mmHg): {criteria.MeanMmhg:0.0} ± {criteria.SdMmhg:0.0} mmHg, {Word(criteria.MeetsFirst)}; criterion 2 (SD of subject means at most {criteria.SubjectSdLimitMmhg:0.00} mmHg): {Number(criteria.SubjectSdMmhg)}, {Word(criteria.MeetsSecond)}; {criteria.SubjectCount} of the {PressureCriteria.SubjectsOfStandard} subjects that the standard asks for."));
        }

        if (figures.Bands is PressureBands bands && bands.Count > 0)
        {
            sentences.Add(FormattableString.Invariant(
                $"Within 5, 10, 15 mmHg: {100 * bands.Share(bands.Within5):0}, {100 * bands.Share(bands.Within10):0}, {100 * bands.Share(bands.Within15):0} % (grade {bands.Grade}); mean absolute difference {Number(figures.All.MeanAbsolute)} mmHg (grade {figures.MeanAbsoluteGrade})."));
        }

        if (figures.Tracking is ChangeTracking { Rms: double rms, NoChangeRms: double noChange })
        {
            sentences.Add(FormattableString.Invariant(
                $"Change since calibration: off by {rms:0.0} mmHg (root mean square), the value of the latest cuff repeated by {noChange:0.0} mmHg: {(rms < noChange ? "changes are tracked" : "NO better than never moving")}."));
        }

        if (figures.Saturation is SaturationAccuracy saturation && saturation.Arms is double arms)
        {
            string[] of = [.. SaturationAccuracy.EdgesPercent.Zip(SaturationAccuracy.EdgesPercent.Skip(1)).Zip(saturation.Bands)
                .Where(b => b.Second.Count > 0)
                .Select(b => FormattableString.Invariant($"{b.First.First:0} to {b.First.Second:0} %: {b.Second.Rms:0.00}"))];
            sentences.Add(FormattableString.Invariant($"A_rms {arms:0.00} points over 70 to 100 % ({string.Join("; ", of)}); bench signals cannot show the accuracy of a sensor on people."));
        }

        return string.Join(' ', sentences);
    }

    private static string Number(double? value) => value is double v ? FormattableString.Invariant($"{v:0.00}") : "–";

    private static string Word(bool? isMet) => isMet is not bool met ? "not defined" : met ? "met" : "not met";
}
