// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Files.Exports;
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;

namespace SensorSim.Cli.Commands;

/// <summary>Runs whose rates change have no place in files that hold one rate for each signal.</summary>
internal static class RateChanges
{
    /// <summary>Whether a channel of a scenario changes its rate; off is no change.</summary>
    /// <param name="scenario">The scenario.</param>
    public static bool Any(Scenario scenario) => scenario.Settings.Any(s => s.Setting == SensorSetting.Decimation && s.ValueMilli > 1000);

    /// <summary>Refuses forms that have no place for it.</summary>
    /// <param name="forms">The forms that were asked for.</param>
    /// <exception cref="UsageException">EDF or BDF is among them.</exception>
    public static void Refuse(IReadOnlyList<RecordingForm> forms)
    {
        RecordingForm[] wrong = [.. forms.Where(f => f is RecordingForm.Bdf or RecordingForm.Edf)];
        if (wrong.Length > 0)
        {
            throw new UsageException(
                $"--format {string.Join(',', wrong.Select(f => f.Text()))} holds one rate for each channel, and here a channel changes its rate (setting decimation); use csv, npy or parquet");
        }
    }
}
