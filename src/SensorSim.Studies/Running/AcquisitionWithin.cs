// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;

namespace SensorSim.Studies.Running;

/// <summary>Opens what a recording itself says of its acquisition, where there is no <c>acquisition.csv</c>.</summary>
public static class AcquisitionWithin
{
    /// <summary>Opens the annotations of EDF or BDF files that were written here.</summary>
    /// <param name="path">Path of a file, or of a folder of them; or of something else.</param>
    /// <returns>The rows; null when the path leads to something else, or to files of others.</returns>
    /// <exception cref="InputFileException">The file is not what it should be.</exception>
    public static IRowReader<AcquisitionRow>? Open(string path) => TruthFile.IsEdf(path) ? EdfAcquisition.Open(path) : null;
}
