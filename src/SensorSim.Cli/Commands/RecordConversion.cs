// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Files.Rows;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Replays;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>record RECORDING</c>: a recording in one form → in others, with its truth and what its acquisition did.</summary>
internal static class RecordConversion
{
    private const string AcquisitionName = "acquisition.csv";

    /// <summary>Converts it.</summary>
    /// <returns>Exit code.</returns>
    public static int Record(
        Terminal terminal, string path, RecordingChoice choice, IReadOnlyList<RecordingForm> forms, string outPath, bool isJson, CancellationToken cancellation)
    {
        using RecordedRun recorded = RecordingInput.OpenWithTruth(path, choice);
        RecordingInput.Tell(terminal, recorded.Recording);
        if (recorded.ChangesRates)
        {
            RateChanges.Refuse(forms);
        }

        using OutputFolder folder = OutputPlace.Open(outPath);
        using var truth = new FileSink(folder, recorded.Format, withTruth: recorded.Truth is not null, withDetections: false, withSamples: false);
        using var files = new StoredForms(folder, recorded.Format, forms, new RecordingFacts(), recorded.Clocks, recorded.Truth is not null);
        using var progress = new Progress(terminal, recorded.EndTick, recorded.Format.Clock.TicksPerSecond);
        RunOutcome outcome = new Runner(recorded, recorded.Truth, detector: null, scorer: null, truth, files).Run(progress.Report, cancellation);
        progress.Clear();
        truth.Complete();
        files.Complete();
        StoreAcquisition(path, recorded.Format, folder);
        folder.Commit();
        double seconds = recorded.Format.Clock.Seconds(recorded.EndTick);
        if (isJson)
        {
            CountsJson.Write(terminal.OutStream, [("recording", path)], [("duration_s", seconds), ("sample_count", outcome.SampleCount)], marks: null);
        }
        else
        {
            terminal.Out.WriteLine(FormattableString.Invariant(
                $"{path}: {seconds:0.###} s, {outcome.SampleCount} samples of {recorded.Format.Channels.Count} channels, as {string.Join(", ", forms.Select(f => f.Text()))}"));
        }

        files.Tell(terminal);
        terminal.Say($"files written to {outPath}");
        return ExitCodes.Done;
    }

    // It holds for the stream, whatever its form: as it stands beside the recording, else in it.
    private static void StoreAcquisition(string path, StreamFormat format, OutputFolder folder)
    {
        string beside = Path.Combine(RecordingInput.FolderOf(path), AcquisitionName);
        if (File.Exists(beside))
        {
            using Stream from = File.OpenRead(beside);
            using Stream to = folder.CreateFile(AcquisitionName);
            from.CopyTo(to);
            return;
        }

        using IRowReader<AcquisitionRow>? rows = AcquisitionWithin.Open(path);
        if (rows is not null)
        {
            using var writer = new AcquisitionCsvWriter(folder.CreateFile(AcquisitionName));
            foreach (AcquisitionRow row in rows.ReadAll().Where(r => format.IndexOf(r.Channel) >= 0))
            {
                writer.Write(row);
            }
        }
    }
}
