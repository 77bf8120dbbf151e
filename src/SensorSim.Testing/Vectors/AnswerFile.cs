// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Finds the answers to a case.</summary>
internal static class AnswerFile
{
    /// <summary>Path of the file with the answers to a case.</summary>
    /// <param name="path">A file, or a folder with one a case.</param>
    /// <param name="caseName">Name of the case.</param>
    /// <exception cref="FileNotFoundException">There is none.</exception>
    public static string Of(string path, string caseName)
    {
        string full = TestFile.Find(path);
        if (File.Exists(full))
        {
            return full;
        }

        string[] places = [Path.Combine(full, caseName, "detections.csv"), Path.Combine(full, caseName + ".csv")];
        return places.FirstOrDefault(File.Exists) ?? throw new FileNotFoundException($"{path}: holds no answers to {caseName}; they are looked for in {caseName}/detections.csv and {caseName}.csv");
    }
}
