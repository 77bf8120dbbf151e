// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>A stretch of about a second of a grid that begins at an absolute sample, with the three axes and working space.</summary>
/// <remarks>Blocks stand at absolute places, so what is drawn into them does not depend on how a stream is cut.</remarks>
internal sealed class MovementBlock
{
    private const int Most = 4096;
    private const int SegmentCount = 4;
    private const int StepCount = 32;
    private readonly SampleGrid _grid;
    private readonly StrideSegment[] _segments = new StrideSegment[SegmentCount];
    private readonly KnownStep[] _steps = new KnownStep[StepCount];

    public MovementBlock(SampleGrid grid)
    {
        _grid = grid;
        Count = LengthOn(grid);
        int capacity = (Count + 3) & ~3;
        X = new double[capacity];
        Y = new double[capacity];
        Z = new double[capacity];
        Turns = new double[capacity];
        Gains = new double[capacity];
        Spare = new double[capacity];
        Array.Fill(_segments, StrideSegment.None);
        Array.Fill(_steps, new KnownStep { Number = long.MinValue });
    }

    /// <summary>Samples of the block.</summary>
    public int Count { get; }

    /// <summary>Index of the first sample.</summary>
    public long First { get; private set; }

    /// <summary>Sampling instants.</summary>
    public SampleGrid Grid => _grid;

    /// <summary>Acceleration along x [g]; these and the working arrays are filled up to a multiple of four.</summary>
    public double[] X { get; }

    /// <summary>Acceleration along y [g].</summary>
    public double[] Y { get; }

    /// <summary>Acceleration along z [g].</summary>
    public double[] Z { get; }

    /// <summary>Working space: a phase for each sample [turns].</summary>
    public double[] Turns { get; }

    /// <summary>Working space: a gain for each sample.</summary>
    public double[] Gains { get; }

    /// <summary>Working space.</summary>
    public double[] Spare { get; }

    /// <summary>Instant of the first sample [s].</summary>
    public double BeginSeconds => _grid.Seconds(First);

    /// <summary>Instant of the last sample [s].</summary>
    public double EndSeconds => _grid.Seconds(First + Count - 1);

    /// <summary>Samples in a block of a grid: a second's, but at least 4 and at most 4096.</summary>
    public static int LengthOn(SampleGrid grid) => (int)Math.Max(4, Math.Min(Most, Math.Round(1 / grid.StepSeconds)));

    /// <summary>Instant of a sample of the block [s].</summary>
    public double Seconds(int index) => _grid.Seconds(First + index);

    /// <summary>Goes to another block, every sample the same.</summary>
    public void MoveTo(long block, Axes all)
    {
        First = block * Count;
        X.AsSpan().Fill(all.X);
        Y.AsSpan().Fill(all.Y);
        Z.AsSpan().Fill(all.Z);
    }

    /// <summary>A second of a stride's phase, kept while the block passes by.</summary>
    public ref readonly StrideSegment Segment(StridePhase phase, long node)
    {
        ref StrideSegment segment = ref _segments[node & (SegmentCount - 1)];
        if (segment.Node != node)
        {
            segment = phase.Segment(node, _segments[(node - 1) & (SegmentCount - 1)]);
        }

        return ref segment;
    }

    /// <summary>What is known of a step, kept while the block passes by; whoever finds another number in it starts it anew.</summary>
    public ref KnownStep Step(long number) => ref _steps[number & (StepCount - 1)];

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
}
