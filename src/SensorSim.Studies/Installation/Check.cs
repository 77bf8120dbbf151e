// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Installation;

/// <summary>How a check ended.</summary>
public enum CheckResult
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
public sealed record Check(string Name, string Proves, Func<CheckFinding> Run);

/// <summary>What a check found.</summary>
/// <param name="Result">How it ended.</param>
/// <param name="Detail">How much was looked at, or the first thing that is wrong; one line.</param>
public sealed record CheckFinding(CheckResult Result, string Detail)
{
    /// <summary>Known anomalies that showed, each as case and requirement.</summary>
    public IReadOnlyList<(string CaseName, string RequirementId)> Anomalies { get; init; } = [];

    /// <summary>All of it is as it should be.</summary>
    /// <param name="detail">How much was looked at.</param>
    public static CheckFinding Passed(string detail) => new(CheckResult.Passed, detail);

    /// <summary>Something is not.</summary>
    /// <param name="detail">The first thing that is wrong.</param>
    public static CheckFinding Failed(string detail) => new(CheckResult.Failed, detail);
}

/// <summary>A check with what it found.</summary>
/// <param name="Name">Name of the check.</param>
/// <param name="Proves">What it proves when it passes.</param>
/// <param name="Finding">What it found.</param>
public sealed record CheckOutcome(string Name, string Proves, CheckFinding Finding)
{
    /// <summary>Whether all of it is as it should be.</summary>
    public bool HasPassed => Finding.Result == CheckResult.Passed;
}
