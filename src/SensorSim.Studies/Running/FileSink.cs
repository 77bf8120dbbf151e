// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
using SensorSim.Files.Rows;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Writes what passes during a run: truth, detections and, if wanted, the samples themselves.</summary>
public sealed class FileSink : IRunSink, IDisposable
{
    private readonly TruthCsvWriter? _truth;
    private readonly DetectionsCsvWriter? _detections;
    private readonly RecordingFolderWriter? _recording;
    private readonly SettingsCsvWriter? _settings;

    /// <summary>Starts the files.</summary>
    /// <param name="folder">Receives them; committed by the caller after <see cref="Complete"/>.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="withTruth">Whether to write <c>truth.csv</c>.</param>
    /// <param name="withDetections">Whether to write <c>detections.csv</c>.</param>
    /// <param name="withSamples">Whether to write the recording.</param>
    /// <param name="withSettings">Whether to write <c>settings.csv</c>, the schedule of a closed loop.</param>
    public FileSink(
        OutputFolder folder, StreamFormat format, bool withTruth, bool withDetections, bool withSamples, bool withSettings = false)
    {
        ArgumentNullException.ThrowIfNull(folder);
        _truth = withTruth ? new TruthCsvWriter(folder.CreateFile("truth.csv")) : null;
        _detections = withDetections ? new DetectionsCsvWriter(folder.CreateFile("detections.csv"), format) : null;
        _recording = withSamples ? new RecordingFolderWriter(folder, format) : null;
        _settings = withSettings ? new SettingsCsvWriter(folder.CreateFile("settings.csv")) : null;
    }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block) => _recording?.Write(block);

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth) => _truth?.Write(truth);

    /// <inheritdoc/>
    public void OnMark(in Mark mark) => _detections?.Write(mark);

    /// <inheritdoc/>
    public void OnSetting(in SettingChange change) => _settings?.Write(change);

    /// <summary>Hands the marks written so far to the operating system: should this process die, the file holds them.</summary>
    public void FlushMarks() => _detections?.Flush();

    /// <summary>Finishes and closes every file.</summary>
    public void Complete()
    {
        _recording?.Complete();
        Dispose();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _truth?.Dispose();
        _detections?.Dispose();
        _recording?.Dispose();
        _settings?.Dispose();
    }
}
