// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Verifying;

namespace SensorSim.Studies.Installation;

/// <summary>The vector set: is it the one that the command was built with, does this machine make it again, does the library meet its requirements here.</summary>
/// <param name="folder">Folder of the set.</param>
/// <param name="cancellation">Set when the user interrupts.</param>
internal sealed class VectorChecks(string folder, CancellationToken cancellation)
{
    private SetVerification? _verification;

    /// <summary>Whether the manifest is the one that the command was built with.</summary>
    /// <param name="expected">Its sum.</param>
    public CheckFinding IsShipped(string expected)
    {
        string path = Path.Combine(folder, SetNames.Manifest);
        if (!File.Exists(path))
        {
            return CheckFinding.Failed($"{path} is not there; install the command anew");
        }

        string sum = Sha256Sum.OfFile(path);
        return sum == expected
            ? CheckFinding.Passed($"manifest {sum[..16]}…")
            : CheckFinding.Failed($"{SetNames.Manifest} has the sum {sum[..16]}…; the command was built with {expected[..16]}…");
    }

    /// <summary>Whether every file is whole, and everything that is made comes out the same on this machine.</summary>
    public CheckFinding IsMadeAgain()
    {
        _verification = SetVerifier.Verify(folder, cancellation);
        if (_verification.Findings is [SetFinding first, ..])
        {
            string more = _verification.Findings.Count == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {_verification.Findings.Count - 1} more: sensorsim vectors verify {folder}");
            return CheckFinding.Failed($"{first.Path}: {first.Sentence}{more}");
        }

        return CheckFinding.Passed(string.Create(
            CultureInfo.InvariantCulture, $"{_verification.FileCount} files whole, {_verification.Sums.Count} cases made again to the bit"));
    }

    /// <summary>Whether the answers that the library gives here meet the requirements, but for the anomalies that the plan lists.</summary>
    public CheckFinding AreAnswersAccepted()
    {
        if (_verification is not { IsSound: true })
        {
            return CheckFinding.Failed("the set was not made again, so nothing can be judged by it");
        }

        IReadOnlyList<RequirementVerdict> verdicts = _verification.Verdicts;
        RequirementVerdict? bad = verdicts.FirstOrDefault(v => v.Outcome is RequirementOutcome.NotMet or RequirementOutcome.NotJudged);
        (string, string)[] known = [.. verdicts.Where(v => v.Outcome == RequirementOutcome.KnownDeviation).Select(v => (v.CaseName, v.RequirementId))];
        return bad is not null
            ? CheckFinding.Failed($"{bad.CaseName}, {bad.RequirementId}: {bad.Sentence}")
            : CheckFinding.Passed(string.Create(CultureInfo.InvariantCulture, $"{verdicts.Count(v => v.Outcome == RequirementOutcome.Met)} requirements met, {known.Length} known anomalies")) with { Anomalies = known };
    }
}
