// SPDX-License-Identifier: MIT
namespace SensorSim.Cli;

/// <summary>What the exit codes mean.</summary>
public static class ExitCodes
{
    /// <summary>Done, and every requirement is met.</summary>
    public const int Done = 0;

    /// <summary>A requirement is not met, or the detector was silent, babbled, lied, hung, crashed or was late.</summary>
    public const int NotMet = 1;

    /// <summary>The user's input is wrong: command line, scenario, recording.</summary>
    public const int WrongInput = 2;

    /// <summary>The environment failed: disk, rights, port.</summary>
    public const int EnvironmentFailed = 3;

    /// <summary>The user interrupted.</summary>
    public const int Interrupted = 130;
}
