// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Boards;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Replays;

/// <summary>Tells a board which settings of the sensor change in a closed loop, before the samples that show it.</summary>
public sealed class SettingTeller : IRunSink
{
    private readonly BoardDetector _board;
    private readonly StreamFormat _format;

    /// <summary>Creates a teller.</summary>
    /// <param name="board">The board.</param>
    /// <param name="format">Format of the stream.</param>
    public SettingTeller(BoardDetector board, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(format);
        _board = board;
        _format = format;
    }

    /// <summary>Changes that found no room to be told.</summary>
    public long UntoldCount { get; private set; }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // Samples go to the board anyway.
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // No detector sees truth.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        // The board's own.
    }

    /// <inheritdoc/>
    public void OnSetting(in SettingChange change)
    {
        int channel = _format.IndexOf(change.Channel);
        if (!_board.TellSetting(new SettingsRequest(channel, change.Setting, change.ValueMilli, _format.Clock.TickAtOrAfterNs(change.EffectiveNs))))
        {
            UntoldCount++;
        }
    }
}
