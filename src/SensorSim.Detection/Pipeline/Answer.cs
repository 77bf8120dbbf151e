// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pipeline;

/// <summary>What an answer of the library is about.</summary>
public enum AnswerKind : byte
{
    /// <summary>R peak; the value is its deviation from the level before the QRS complex [codes].</summary>
    RPeak,

    /// <summary>Foot of a pulse by tangents.</summary>
    FootTangent,

    /// <summary>Foot of a pulse by the second derivative.</summary>
    FootSecondDerivative,

    /// <summary>Steepest point of a pulse.</summary>
    SteepestPoint,

    /// <summary>Systolic peak of a pulse.</summary>
    SystolicPeak,

    /// <summary>A reading; see <see cref="Answer.Reading"/>.</summary>
    Reading,

    /// <summary>The gate of the channel has opened.</summary>
    GateOpen,

    /// <summary>The gate of the channel has shut; the value is the <see cref="GateReason"/>.</summary>
    GateShut,

    /// <summary>The gate of both signals has opened.</summary>
    JointGateOpen,

    /// <summary>The gate of both signals has shut; the value is the <see cref="GateReason"/>.</summary>
    JointGateShut,

    /// <summary>The rhythm is irregular from here on.</summary>
    IrregularRhythm,

    /// <summary>The rhythm is regular again.</summary>
    RegularRhythm,
}

/// <summary>One answer of the library: integers only, a place in samples of a channel.</summary>
public struct Answer
{
    /// <summary>What it is about.</summary>
    public AnswerKind Kind;

    /// <summary>Which reading, when it is one.</summary>
    public ReadingKind Reading;

    /// <summary>The channel that the place counts in.</summary>
    public ChannelRole Role;

    /// <summary>The channel of what it is paired with (the R peak of an arrival), or none.</summary>
    public ChannelRole PairedRole;

    /// <summary>Trust, 0 to 255.</summary>
    public byte Quality;

    /// <summary>The value: codes of an R peak, number of a reason, thousandths of a reading's unit.</summary>
    public int Value;

    /// <summary>Where.</summary>
    public SamplePosition Place;

    /// <summary>Where what it is paired with lies.</summary>
    public SamplePosition Paired;

    /// <summary>How far the data reach back from the place [samples of the channel].</summary>
    public long WindowSamples;

    /// <summary>End tick of the data seen when it was given.</summary>
    public long EmittedTick;
}

/// <summary>Where the library puts its answers: a list of the caller's. What does not fit is counted.</summary>
public ref struct AnswerList
{
    private readonly Span<Answer> _answers;

    /// <summary>Creates an empty list.</summary>
    /// <param name="room">Where the answers go; <see cref="Most"/> are enough for a tenth of a second.</param>
    public AnswerList(Span<Answer> room)
    {
        _answers = room;
        Count = 0;
        LostCount = 0;
    }

    /// <summary>More answers than this cannot come within a tenth of a second.</summary>
    public const int Most = 48;

    /// <summary>Answers in the list.</summary>
    public int Count { get; private set; }

    /// <summary>Answers that did not fit.</summary>
    public int LostCount { get; private set; }

    /// <summary>An answer.</summary>
    /// <param name="index">Its number.</param>
    public readonly ref readonly Answer this[int index] => ref _answers[index];

    /// <summary>Appends an answer.</summary>
    /// <param name="answer">The answer.</param>
    public void Add(in Answer answer)
    {
        if (Count == _answers.Length)
        {
            LostCount++;
            return;
        }

        _answers[Count++] = answer;
    }

    /// <summary>Drops all answers.</summary>
    public void Clear() => Count = 0;
}
