// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Running;

/// <summary>Opens truth in either form: <c>truth.csv</c>, or a list of beats that somebody made for a recording.</summary>
public static class TruthFile
{
    /// <summary>Opens a file; the header tells which form it has.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="rateHz">Sampling rate that a list of beats counts in [Hz]; null to use its times.</param>
    /// <exception cref="InputFileException">The file is missing or not what it should be.</exception>
    public static CsvRowReader<TruthEvent> Open(string path, int? rateHz)
    {
        string header = "";
        if (File.Exists(path))
        {
            using var reader = new StreamReader(path);
            header = reader.ReadLine() ?? "";
        }

        return header.Split(',').Any(column => column.Trim() == "kind") || !File.Exists(path)
            ? new TruthCsvReader(path)
            : new BeatListCsvReader(path, rateHz);
    }
}
