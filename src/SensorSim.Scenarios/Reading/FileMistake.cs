// SPDX-License-Identifier: MIT
using SensorSim.Files;

namespace SensorSim.Scenarios.Reading;

/// <summary>What is wrong with a file that a scenario names, for a list of mistakes that says the file's name itself.</summary>
internal static class FileMistake
{
    /// <summary>The sentence without the name of the file and the full stop.</summary>
    /// <param name="wrong">What is wrong.</param>
    public static string Of(InputFileException wrong)
    {
        string message = wrong.Message.StartsWith(wrong.File + ": ", StringComparison.Ordinal) ? wrong.Message[(wrong.File.Length + 2)..] : wrong.Message;
        return message.TrimEnd('.');
    }
}
