// SPDX-License-Identifier: MIT
namespace SensorSim.Files.JUnit;

/// <summary>How a case of a JUnit file ended.</summary>
public enum JUnitOutcome
{
    /// <summary>It passed: no element inside.</summary>
    Passed,

    /// <summary>It failed: a <c>failure</c> inside.</summary>
    Failed,

    /// <summary>It was not judged: a <c>skipped</c> inside.</summary>
    Skipped,
}

/// <summary>One case of a JUnit file.</summary>
/// <param name="ClassName">What it belongs to; points part its levels.</param>
/// <param name="Name">Its name.</param>
/// <param name="Outcome">How it ended.</param>
/// <param name="Message">One sentence why it failed or was not judged; empty: none.</param>
/// <param name="Text">What it rests on, as text of the case (<c>system-out</c>); empty: none.</param>
public sealed record JUnitCase(string ClassName, string Name, JUnitOutcome Outcome, string Message = "", string Text = "");
