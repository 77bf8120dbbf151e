// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.SelfTests;

/// <summary>How a check ended.</summary>
internal enum CheckResult
{
    /// <summary>All of it is as it should be.</summary>
    Passed,

    /// <summary>Something is not, or the check could not be made.</summary>
    Failed,
}

/// <summary>One check of the installation.</summary>
/// <param name="Name">Short name, for tables: lower case, words parted by blanks.</param>
/// <param name="Proves">What it proves when it passes, and no more than that.</param>
/// <param name="Run">Makes it.</param>
internal sealed record Check(string Name, string Proves, Func<CheckFinding> Run);

/// <summary>What a check found.</summary>
/// <param name="Result">How it ended.</param>
/// <param name="Detail">How much was looked at, or the first thing that is wrong; one line.</param>
internal sealed record CheckFinding(CheckResult Result, string Detail)
{
    /// <summary>Known anomalies that showed, each as case and requirement.</summary>
    public IReadOnlyList<(string CaseName, string RequirementId)> Anomalies { get; init; } = [];

    public static CheckFinding Passed(string detail) => new(CheckResult.Passed, detail);

    public static CheckFinding Failed(string detail) => new(CheckResult.Failed, detail);
}

/// <summary>A check with what it found.</summary>
internal sealed record CheckOutcome(string Name, string Proves, CheckFinding Finding)
{
    public bool HasPassed => Finding.Result == CheckResult.Passed;
}
