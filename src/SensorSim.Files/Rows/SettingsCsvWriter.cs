// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Writes <c>settings.csv</c>: <c>channel,setting,value,effective_ns</c>, nominal device time.</summary>
public sealed class SettingsCsvWriter : IDisposable
{
    private readonly CsvWriter _csv;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    public SettingsCsvWriter(Stream stream) => _csv = new CsvWriter(stream, SettingsCsv.Header);

    /// <summary>Writes a row.</summary>
    /// <param name="change">The row.</param>
    public void Write(in SettingChange change)
    {
        _csv.Text(change.Channel.Text());
        _csv.Text(change.Setting.Text());
        _csv.Milli(change.ValueMilli);
        _csv.Integer(change.EffectiveNs);
        _csv.EndRow();
    }

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();
}
