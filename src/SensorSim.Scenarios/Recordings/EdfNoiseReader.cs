// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Files.Edf;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Recordings;

/// <summary>Reads recorded noise from a signal of an EDF or BDF file: its physical values, at its own rate, whatever it measures.</summary>
public static class EdfNoiseReader
{
    private const double SlowestHz = 20;
    private const double FastestHz = 10000;
    private const double Largest = 1e9;

    /// <summary>Reads it.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="label">Label of the signal; null: the only one.</param>
    /// <param name="labelKey">Name of the key that gives it.</param>
    /// <param name="rateHz">Sampling rate that the scenario gives; must be null, because the file says it.</param>
    /// <param name="rateKey">Name of the key that gives it.</param>
    /// <param name="report">Takes what is wrong.</param>
    /// <returns>The recording; null where anything was wrong.</returns>
    public static NoiseRecording? Read(string path, string? label, string labelKey, double? rateHz, string rateKey, Action<string> report)
    {
        ArgumentNullException.ThrowIfNull(report);
        if (rateHz is not null)
        {
            report($"the file says its rate, and {rateKey} gives one as well; leave out {rateKey}");
            return null;
        }

        try
        {
            using var reader = new EdfSignalReader(path, label);
            return Read(reader, report);
        }
        catch (InputFileException e)
        {
            report(label is null ? $"{FileMistake.Of(e)} (a signal is chosen by {labelKey})" : FileMistake.Of(e));
            return null;
        }
    }

    private static NoiseRecording? Read(EdfSignalReader reader, Action<string> report)
    {
        if (reader.Count is < NoiseRecording.Fewest or > NoiseRecording.Most)
        {
            report(Invariant($"the signal has {reader.Count} values; {NoiseRecording.Fewest} to {NoiseRecording.Most} are taken"));
            return null;
        }

        if (!(reader.RateHz >= SlowestHz && reader.RateHz <= FastestHz))
        {
            report(Invariant($"the signal has {reader.RateHz} Hz; {SlowestHz} to {FastestHz} Hz are taken"));
            return null;
        }

        var values = new double[(int)reader.Count];
        int count = reader.Read(values);
        if (count < values.Length || Array.Exists(values, v => !(Math.Abs(v) <= Largest)))
        {
            report("the values of the signal must be numbers between -1e9 and 1e9, as many as the header says");
            return null;
        }

        if (Array.TrueForAll(values, v => v == values[0]))
        {
            report("all values of the signal are the same; noise must vary");
            return null;
        }

        return new NoiseRecording(values, reader.RateHz);
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
