// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;

namespace SensorSim.Detectors.Boards;

/// <summary>What the board has said in the session at hand.</summary>
internal sealed class SessionState
{
    /// <summary>Number of the session.</summary>
    public uint Session { get; private set; }

    /// <summary>What the board says of itself; null until it has.</summary>
    public AboutPayload? About { get; set; }

    /// <summary>What it accepted last, and the number of that frame.</summary>
    public AcceptedPayload Accepted { get; set; }

    /// <summary>The latest trouble; its number may be of any frame.</summary>
    public TroublePayload? Trouble { get; set; }

    /// <summary>How far it is; all 0 until it has said.</summary>
    public ProgressPayload Progress { get; private set; }

    /// <summary>How often it has said how far it is.</summary>
    public int ProgressCount { get; private set; }

    /// <summary>Whether it has been told to stop.</summary>
    public bool IsStopSent { get; set; }

    /// <summary>Whether it has stopped.</summary>
    public bool IsStopped { get; set; }

    /// <summary>Whether samples may be sent.</summary>
    public bool IsStarted { get; private set; }

    /// <summary>Number of the first accepted <c>start</c>.</summary>
    public uint StartSequence { get; private set; }

    /// <summary>First tick of the session's samples.</summary>
    public long BeginTick { get; private set; }

    /// <summary>Whether the board no longer knows the session.</summary>
    public bool IsForgotten { get; set; }

    /// <summary>What the board says is wrong with it; null when nothing is.</summary>
    public string? Fault { get; set; }

    /// <summary>Marks that came in this session.</summary>
    public long MarksReceived { get; set; }

    /// <summary>Last number that a frame of samples may have.</summary>
    public uint Credit { get; private set; }

    /// <summary>Tick up to which samples are taken.</summary>
    public long TakenTick { get; private set; }

    /// <summary>When that tick was last heard to rise [ticks of the stopwatch]. Credit rises with any frame and says nothing about life.</summary>
    public long TakenAt { get; private set; }

    /// <summary>A new session begins.</summary>
    public void Begin(uint session)
    {
        Session = session;
        About = null;
        Accepted = default;
        Trouble = null;
        Progress = default;
        ProgressCount = 0;
        IsStopSent = false;
        IsStopped = false;
        IsStarted = false;
        IsForgotten = false;
        Fault = null;
        MarksReceived = 0;
    }

    /// <summary>The board has accepted <c>start</c>.</summary>
    /// <param name="sequence">Number of that frame.</param>
    /// <param name="beginTick">First tick of the samples.</param>
    public void Start(uint sequence, long beginTick)
    {
        IsStarted = true;
        StartSequence = sequence;
        BeginTick = beginTick;
        TakenTick = beginTick;
        Credit = unchecked(sequence + About!.Value.Credit);
    }

    /// <summary>The board says how far it is.</summary>
    /// <param name="progress">What it says.</param>
    /// <param name="heardAt">When it was heard [ticks of the stopwatch].</param>
    public void Note(in ProgressPayload progress, long heardAt)
    {
        Progress = progress;
        ProgressCount++;
        if (progress.TakenTick > TakenTick)
        {
            TakenTick = progress.TakenTick;
            TakenAt = heardAt;
        }

        if (IsStarted && unchecked((int)(progress.Credit - Credit)) > 0)
        {
            Credit = progress.Credit;
        }
    }

    /// <summary>Whether a frame of samples with a number may be sent.</summary>
    public bool Allows(uint sequence) => unchecked((int)(Credit - sequence)) >= 0;
}
