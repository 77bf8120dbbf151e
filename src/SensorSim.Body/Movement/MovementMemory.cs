// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>What the blocks of a grid keep for each other, so that it is drawn once while they pass by.</summary>
/// <remarks>All of it follows from its number alone and can be made anew: copies need not carry it, and no order of blocks changes a bit.</remarks>
internal sealed class MovementMemory
{
    private const int SegmentCount = 8;
    private const int StepCount = 64;
    private const int GestureCount = 4;
    private readonly StrideSegment[] _segments = new StrideSegment[SegmentCount];
    private readonly KnownStep[] _steps = new KnownStep[StepCount];
    private readonly KnownGesture[] _gestures = new KnownGesture[GestureCount];

    /// <summary>Creates a memory.</summary>
    /// <param name="model">The movement.</param>
    /// <param name="directions">Directions that the blocks draw along.</param>
    public MovementMemory(MovementModel model, Axes[] directions)
    {
        Lines = [.. model.Gait.Styles.Select(s => new StrideLines(s.Shape.Factors, directions))];
        Array.Fill(_segments, StrideSegment.None);
        Array.Fill(_steps, new KnownStep { Number = long.MinValue });
        Array.Fill(_gestures, new KnownGesture { Number = long.MinValue });
        Typing = model.Typing.Words();
        Taps = model.Taps.Words();
        TremorSine = new SmoothNodes(model.Tremor.Sine);
        TremorCosine = new SmoothNodes(model.Tremor.Cosine);
    }

    /// <summary>Lines of each style of gait along the directions.</summary>
    public StrideLines[] Lines { get; }

    /// <summary>Candidates of strokes.</summary>
    public CandidateWords Typing { get; }

    /// <summary>Candidates of taps.</summary>
    public CandidateWords Taps { get; }

    /// <summary>Nodes of the size of the tremor's sine.</summary>
    public SmoothNodes TremorSine { get; }

    /// <summary>Nodes of the size of the tremor's cosine.</summary>
    public SmoothNodes TremorCosine { get; }

    /// <summary>A second of a stride's phase.</summary>
    public ref readonly StrideSegment Segment(StridePhase phase, long node)
    {
        ref StrideSegment segment = ref _segments[node & (SegmentCount - 1)];
        if (segment.Node != node)
        {
            segment = phase.Segment(node, _segments[(node - 1) & (SegmentCount - 1)]);
        }

        return ref segment;
    }

    /// <summary>What is known of a step; whoever finds another number in it starts it anew.</summary>
    public ref KnownStep Step(long number) => ref _steps[number & (StepCount - 1)];

    /// <summary>What is known of a gesture; whoever finds another number in it starts it anew.</summary>
    public ref KnownGesture Gesture(long number) => ref _gestures[number & (GestureCount - 1)];

    /// <summary>When a step falls, and its normal draw.</summary>
    internal struct KnownStep
    {
        /// <summary>Number of the step.</summary>
        public long Number;

        /// <summary>Its time [s]; not a number until somebody asks.</summary>
        public double Seconds;

        /// <summary>Its draw.</summary>
        public double Normal;
    }

    /// <summary>A candidate of a gesture.</summary>
    internal struct KnownGesture
    {
        /// <summary>Number of the candidate.</summary>
        public long Number;

        /// <summary>Whether it takes place.</summary>
        public bool IsKept;

        /// <summary>The gesture.</summary>
        public Gesture Gesture;
    }
}
