// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Boards.Capturing;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Links;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>record --link</c>: a board's own samples → recording.</summary>
internal static class RecordBoard
{
    /// <summary>Captures until the duration is over or the user interrupts.</summary>
    /// <returns>Exit code.</returns>
    /// <exception cref="LinkUnavailableException">Nobody answers, or nothing came at all.</exception>
    public static int Record(Terminal terminal, LineChoice line, double? durationS, IReadOnlyList<RecordingForm> forms, string outPath, bool isJson, CancellationToken cancellation)
    {
        using OutputFolder folder = OutputPlace.OpenVisible(outPath);
        using var log = new BoardLog(terminal, folder.CreateFile("board.log"), beforeLine: static () => { });
        using var capture = new BoardCapture(line.Open(), new CaptureOptions { DurationS = durationS, Stop = cancellation, OnLog = log.Take });
        using var files = new StoredForms(folder, capture.Format, forms, new RecordingFacts { Title = capture.About.Detector }, [], withTruth: false);
        var counts = new SampleCounts(capture.Format);
        using var progress = new Progress(
            terminal, durationS is null ? long.MaxValue : capture.EndTick, capture.Format.Clock.TicksPerSecond);
        // An interrupt ends the capture, not the run: what came is written.
        RunOutcome outcome = new Runner(capture, truth: null, detector: null, scorer: null, files, counts).Run(tick =>
        {
            folder.KeepsUnfinished = true;
            if (durationS is not null)
            {
                progress.Report(tick);
            }
        }, CancellationToken.None);
        progress.Clear();
        capture.Finish();
        if (outcome.SampleCount == 0)
        {
            folder.KeepsUnfinished = false;
            throw new LinkUnavailableException($"no sample came{(capture.EndedBecause is string why ? $": {why}" : "")}; nothing was written");
        }

        files.Complete();
        log.Dispose();
        folder.Commit();
        Print(terminal, capture, counts, outcome.SampleCount, isJson);
        if (capture.EndedBecause is string reason)
        {
            terminal.Say($"ended early: {reason}; what came until then is written");
        }

        files.Tell(terminal);
        terminal.Say($"files written to {outPath}");
        return capture.EndedBecause is not null ? ExitCodes.EnvironmentFailed : cancellation.IsCancellationRequested && durationS is not null ? ExitCodes.Interrupted : ExitCodes.Done;
    }

    private static void Print(Terminal terminal, BoardCapture capture, SampleCounts counts, long sampleCount, bool isJson)
    {
        double seconds = capture.Format.Clock.Seconds(capture.EndTick);
        CaptureCounts c = capture.Counts;
        if (isJson)
        {
            CountsJson.Write(
                terminal.OutStream,
                [("board", capture.About.Detector)],
                [("duration_s", seconds), ("sample_count", sampleCount), ("samples_frames", c.SamplesFrames), ("frames_damaged", c.Damaged), ("frames_missing", c.Missing), ("frames_repeated", c.Repeated), ("frames_unusable", c.Unusable), ("bytes_received", c.Bytes)],
                marks: null,
                json => Channels(json, counts));
            return;
        }

        terminal.Out.WriteLine(FormattableString.Invariant($"{capture.About.Detector}: {seconds:0.###} s, {sampleCount} samples of {capture.Format.Channels.Count} channels"));
        PlainTables.PrintApart(
            terminal.Out,
            ["channel", "samples>", "missing>", "with status>"],
            counts.Rows.Select(r => new[] { r.Channel, FormattableString.Invariant($"{r.Came}"), FormattableString.Invariant($"{r.Missing}"), FormattableString.Invariant($"{r.Flagged}") }));
        terminal.Out.WriteLine(FormattableString.Invariant(
            $"frames of samples: {c.SamplesFrames}; frames damaged: {c.Damaged}, missing: {c.Missing}, repeated: {c.Repeated}, unusable: {c.Unusable}"));
    }

    private static void Channels(Utf8JsonWriter json, SampleCounts counts)
    {
        json.WriteStartArray("channels");
        foreach ((string channel, long came, long missing, long flagged) in counts.Rows)
        {
            json.WriteStartObject();
            json.WriteString("channel", channel);
            json.WriteNumber("samples", came);
            json.WriteNumber("samples_missing", missing);
            json.WriteNumber("samples_with_status", flagged);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
