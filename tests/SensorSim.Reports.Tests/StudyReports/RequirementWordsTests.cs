// SPDX-License-Identifier: MIT
using SensorSim.Reports.StudyReports;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.Tests.StudyReports;

/// <summary>Requirements in words: every one of them with its unit once.</summary>
[TestFixture]
public sealed class RequirementWordsTests
{
    [TestCase("r_peak_sensitivity_min", "r peak sensitivity, ecg", "r peak sensitivity, ecg: ≥ 3")]
    [TestCase("r_peak_timing_bias_ms_max", "r peak timing bias (ms), ecg", "r peak timing bias, ecg: within ±3 ms")]
    [TestCase("spo2_rms_points_max", "spo2 rms (points), ecg", "spo2 rms, ecg: ≤ 3 points")]
    [TestCase("systolic_sd_mmhg_max", "systolic sd (mmHg), ecg", "systolic sd, ecg: ≤ 3 mmHg")]
    public void Requirement_InWords_ReadsLikeThis(string key, string figure, string required)
    {
        RequirementOnRow requirement = Of(RequirementKeys.All.Single(r => r.Key.Key == key));
        Assert.That((RequirementWords.Figure(requirement), RequirementWords.Required(requirement)), Is.EqualTo((figure, required)));
    }

    [TestCase("r_peak_sensitivity_min", "share of true events that are found")]
    [TestCase("r_peak_timing_bias_ms_max", "mean of detection less truth (ms)")]
    [TestCase("spo2_rms_points_max", "root mean square of reading less truth (points)")]
    public void Axis_InWords_ReadsLikeThis(string key, string axis) => Assert.That(RequirementWords.Axis(Of(RequirementKeys.All.Single(r => r.Key.Key == key))), Is.EqualTo(axis));

    [TestCaseSource(typeof(RequirementKeys), nameof(RequirementKeys.All))]
    public void EveryRequirement_InWords_HasItsUnitOnce(RequirementDefinition definition)
    {
        string unit = definition.Key.Unit;
        foreach (string text in new[] { RequirementWords.Figure(Of(definition)), RequirementWords.Required(Of(definition)), RequirementWords.Axis(Of(definition)) })
        {
            string[] words = text.Split(' ', ',', '(', ')', ':');
            Assert.That(words.Count(w => w.Equals(unit, StringComparison.OrdinalIgnoreCase) && w.Length > 0), Is.EqualTo(unit.Length == 0 ? 0 : 1), text);
        }
    }

    [Test]
    public void Value_Undefined_HasNoUnit()
    {
        RequirementOnRow requirement = Of(RequirementKeys.All.Single(r => r.Key.Key == "systolic_sd_mmhg_max"));
        Assert.That((RequirementWords.Value(requirement, 2.5), RequirementWords.Value(requirement, null)), Is.EqualTo(("2.5 mmHg", "–")));
    }

    private static RequirementOnRow Of(RequirementDefinition definition) => new(definition, 3, ChannelName.Ecg);
}
