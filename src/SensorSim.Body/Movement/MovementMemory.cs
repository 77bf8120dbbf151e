// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>What the blocks of a grid keep for each other, so that it is drawn once while they pass by.</summary>
/// <remarks>All of it follows from its number alone and can be made anew: copies need not carry it, and no order of blocks changes a bit.</remarks>
internal sealed class MovementMemory
{
    /// <summary>Steps that are drawn at once, beginning at a multiple.</summary>
    public const int StepsAtOnce = 16;

    private const int SegmentCount = 8;
    private const int StepCount = 64;
    private const int SizesCount = 4;
    private const int GestureCount = 4;
    private readonly StrideSegment[] _segments = new StrideSegment[SegmentCount];
    private readonly KnownStep[] _steps = new KnownStep[StepCount];
    private readonly KnownGesture[] _gestures = new KnownGesture[GestureCount];
    private readonly TremorSizes[] _sizes = new TremorSizes[SizesCount];
    private readonly SmoothNodes _tremorSine;
    private readonly SmoothNodes _tremorCosine;

    /// <summary>Creates a memory.</summary>
    /// <param name="model">The movement.</param>
    /// <param name="directions">Directions that the blocks draw along.</param>
    /// <param name="grid">Sampling instants.</param>
    public MovementMemory(MovementModel model, Axes[] directions, SampleGrid grid)
    {
        int samples = MovementBlock.LengthOn(grid) + 3;
        Turns = new double[samples];
        Gains = new double[samples];
        Spare = new double[samples];
        Lines = [.. model.Gait.Styles.Select(s => new StrideLines(s.Shape.Factors, directions))];
        Array.Fill(_segments, StrideSegment.None);
        Array.Fill(_steps, new KnownStep { Number = long.MinValue });
        Array.Fill(_gestures, new KnownGesture { Number = long.MinValue });
        Typing = model.Typing.Words();
        Taps = model.Taps.Words();
        StrikePace = new TransientPace(GaitShape.StrikeTauSeconds, grid);
        TypingPace = new TransientPace(model.Typing.TauSeconds, grid);
        TapPace = new TransientPace(model.Taps.TauSeconds, grid);
        TremorStep = model.Tremor.StepOf(grid);
        Array.Fill(_sizes, new TremorSizes(long.MinValue, default, default));
        _tremorSine = new SmoothNodes(model.Tremor.Sine);
        _tremorCosine = new SmoothNodes(model.Tremor.Cosine);
    }

    /// <summary>Working space of the block that is being drawn.</summary>
    public double[] Turns { get; }

    /// <summary>Likewise.</summary>
    public double[] Gains { get; }

    /// <summary>Likewise.</summary>
    public double[] Spare { get; }

    /// <summary>Lines of each style of gait along the directions.</summary>
    public StrideLines[] Lines { get; }

    /// <summary>Candidates of strokes.</summary>
    public CandidateWords Typing { get; }

    /// <summary>Candidates of taps.</summary>
    public CandidateWords Taps { get; }

    /// <summary>How a heel strike goes on from four samples to the next.</summary>
    public TransientPace StrikePace { get; }

    /// <summary>Likewise a stroke.</summary>
    public TransientPace TypingPace { get; }

    /// <summary>Likewise a tap.</summary>
    public TransientPace TapPace { get; }

    /// <summary>Sine and cosine by which the tremor turns from four samples to the next.</summary>
    public (double Sin, double Cos) TremorStep { get; }

    /// <summary>Both sizes of the tremor between a node and the next one.</summary>
    public ref readonly TremorSizes Sizes(long node)
    {
        ref TremorSizes sizes = ref _sizes[node & (SizesCount - 1)];
        if (sizes.Node != node)
        {
            sizes = new TremorSizes(node, _tremorSine.Cubic(node), _tremorCosine.Cubic(node));
        }

        return ref sizes;
    }

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

    /// <summary>What is known of a step; whoever finds another number in it draws all that are drawn at once.</summary>
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

        /// <summary>Peak of its heel strike along the axes [g], known with its time.</summary>
        public Axes StrikeG;
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

    /// <summary>The sizes of the tremor's sine and cosine between a node and the next one.</summary>
    internal readonly record struct TremorSizes(long Node, SmoothCubic Sine, SmoothCubic Cosine);
}
