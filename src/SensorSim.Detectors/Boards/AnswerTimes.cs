// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Detectors.Boards;

/// <summary>When the latest frames of samples were written and were due, so that answers can be timed. Constant memory.</summary>
internal sealed class AnswerTimes
{
    // A late board may be this far behind; 51 s of frames of a tenth of a second.
    private const int Capacity = 512;

    private readonly (long EndTick, long WrittenAt, long? DueAt)[] _frames = new (long, long, long?)[Capacity];
    private readonly long _deadline;
    private int _count;
    private int _next;

    public AnswerTimes(double deadlineMs) => _deadline = (long)(deadlineMs * Stopwatch.Frequency / 1000);

    /// <summary>What came of it.</summary>
    public AnswerLatency Latency { get; } = new();

    /// <summary>Forgets the frames: ticks may begin anew, or be written again.</summary>
    public void ForgetFrames() => _count = 0;

    /// <summary>A frame of samples has been written.</summary>
    /// <param name="endTick">First tick after it.</param>
    /// <param name="writtenAt">When [ticks of the stopwatch].</param>
    /// <param name="dueAt">When its last sample was due [ticks of the stopwatch]; null without a pacer.</param>
    public void NoteWritten(long endTick, long writtenAt, long? dueAt)
    {
        _frames[_next] = (endTick, writtenAt, dueAt);
        _next = (_next + 1) % Capacity;
        _count = Math.Min(_count + 1, Capacity);
    }

    /// <summary>A mark has come.</summary>
    /// <param name="emittedTick">End of the data that it was decided with.</param>
    /// <param name="arrivedAt">When it came [ticks of the stopwatch].</param>
    public void NoteMark(long emittedTick, long arrivedAt)
    {
        if (Find(emittedTick) is int at)
        {
            Latency.Histogram.Add((long)Stopwatch.GetElapsedTime(_frames[at].WrittenAt, arrivedAt).TotalMicroseconds);
            Judge(at, arrivedAt);
        }
    }

    /// <summary>The board has told that it has taken a stretch to its end.</summary>
    public void NoteTaken(long endTick, long arrivedAt)
    {
        if (Find(endTick) is int at)
        {
            Judge(at, arrivedAt);
        }
    }

    private void Judge(int at, long arrivedAt)
    {
        if (_frames[at].DueAt is long due)
        {
            Latency.Judge(arrivedAt - due > _deadline);
        }
    }

    // From the newest backwards to the oldest frame that ends at or after the tick; the newest one when none does.
    private int? Find(long tick)
    {
        int? found = null;
        for (int age = 0; age < _count; age++)
        {
            int at = (_next - 1 - age + (2 * Capacity)) % Capacity;
            if (found is not null && _frames[at].EndTick < tick)
            {
                break;
            }

            found = at;
        }

        return found;
    }
}
