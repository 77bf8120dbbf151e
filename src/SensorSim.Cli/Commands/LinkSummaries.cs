// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detectors.Boards;
using SensorSim.Links.Frames;
using SensorSim.Links.Pacing;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Commands;

/// <summary>Gathers what is told of a replay's link.</summary>
internal static class LinkSummaries
{
    // Stages of the board's timer, as docs/link-protocol.md numbers them.
    private const ushort DetectorStage = 0;
    private const ushort LinkStage = 1;

    /// <summary>The summary of a replay that is over.</summary>
    public static LinkSummary Of(string link, BoardDetector board, Pacer? pacer, double deadlineMs, ReplayLinks links, long logLines) => new()
    {
        Link = link,
        Board = board.About,
        Speed = pacer?.Speed,
        Counts = board.Counts,
        LatencyMs = Of(board.Latency.Histogram)!.Value,
        DeadlineMs = deadlineMs,
        JudgedCount = board.Latency.JudgedCount,
        MissedDeadlines = board.Latency.MissedDeadlines,
        PacingErrorMs = Of(pacer?.Error),
        Damage = links.Damage,
        Figures = [.. board.Figures.Select(Of)],
        LogLineCount = logLines,
    };

    private static Percentiles? Of(TimeHistogram? times) => times is null
        ? null
        : new Percentiles(times.Count, Ms(times.PercentileUs(50)), Ms(times.PercentileUs(90)), Ms(times.PercentileUs(99)), Ms(times.MaximumUs));

    private static double Ms(long us) => us / 1000.0;

    private static LinkFigure Of(BoardFigure figure) => figure.Item switch
    {
        BoardFigures.StackBytes => new LinkFigure("stack_bytes", null, figure.Value),
        BoardFigures.StackUsedBytes => new LinkFigure("stack_used_bytes", null, figure.Value),
        BoardFigures.StateBytes => new LinkFigure("state_bytes", null, figure.Value),
        BoardFigures.AnswersLost => new LinkFigure("answers_lost", null, figure.Value),
        BoardFigures.LongestFrameUs => new LinkFigure("longest_frame_us", null, figure.Value),
        BoardFigures.StageTimerTicks when figure.Index == DetectorStage => new LinkFigure("detector_timer_ticks", null, figure.Value),
        BoardFigures.StageTimerTicks when figure.Index == LinkStage => new LinkFigure("link_timer_ticks", null, figure.Value),
        BoardFigures.StageTimerTicks => new LinkFigure("stage_timer_ticks", figure.Index, figure.Value),
        BoardFigures.SamplesTaken => new LinkFigure("samples_taken", figure.Index, figure.Value),
        BoardFigures.BytesLost => new LinkFigure("bytes_lost", null, figure.Value),
        _ => new LinkFigure(string.Create(CultureInfo.InvariantCulture, $"figure_{figure.Item}"), figure.Index, figure.Value),
    };
}
