// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Marks;

/// <summary>One answer of a detector. Integers only, so that firmware can give the same.</summary>
/// <remarks>Positions are sample indices with a fraction, so no clock of the detector takes part.</remarks>
public readonly record struct Mark
{
    /// <summary>The value of <see cref="PairedChannel"/> when nothing is paired.</summary>
    public const int None = -1;

    /// <summary>One unit of <see cref="ValueMilli"/> in the kind's own unit.</summary>
    public const double ValueScale = 1e-3;

    /// <summary>Creates an empty mark: nothing paired, no window, no value.</summary>
    public Mark()
    {
    }

    /// <summary>Channel number in the stream's format.</summary>
    public int Channel { get; init; }

    /// <summary>What is reported.</summary>
    public MarkKind Kind { get; init; }

    /// <summary>Sample index in <see cref="Channel"/>.</summary>
    public long Sample { get; init; }

    /// <summary>Position after the sample [1/256 of a sampling interval], 0 to 255.</summary>
    public byte Fraction256 { get; init; }

    /// <summary>Whether <see cref="ValueMilli"/> means anything.</summary>
    public bool HasValue { get; init; }

    /// <summary>Value in thousandths of the kind's unit (see <see cref="MarkKinds"/>).</summary>
    public int ValueMilli { get; init; }

    /// <summary>How far the detector trusts the mark, 0 (not at all) to 255.</summary>
    public byte Quality { get; init; }

    /// <summary>End tick of the data that the detector had seen when it gave the mark.</summary>
    public long EmittedTick { get; init; }

    /// <summary>Channel of the mark this one belongs to (the R peak of an arrival), or <see cref="None"/>.</summary>
    public int PairedChannel { get; init; } = None;

    /// <summary>Sample index of the paired mark in <see cref="PairedChannel"/>.</summary>
    public long PairedSample { get; init; }

    /// <summary>Position after the paired sample [1/256 of a sampling interval].</summary>
    public byte PairedFraction256 { get; init; }

    /// <summary>Samples of <see cref="Channel"/> that the averaging window reaches back from the position; 0 when there is none.</summary>
    public long WindowSamples { get; init; }

    /// <summary>Position of the mark [1/256 of a sampling interval from sample 0].</summary>
    public long Position256 => (Sample * 256) + Fraction256;

    /// <summary>The value in the kind's unit; meaningless when <see cref="HasValue"/> is false.</summary>
    public double Value => ValueMilli * ValueScale;
}
