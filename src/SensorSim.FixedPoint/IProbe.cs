// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Sees named intermediate values as they are made. A struct without content costs nothing: the calls vanish.</summary>
/// <remarks>
/// Methods on the sample path are generic in it; the state of the stages is not. What has a body here does nothing; a probe that keeps
/// something declares its own, for a body of the interface would work on a copy of the struct.
/// </remarks>
public interface IProbe
{
    /// <summary>Most samples of a channel that may be worked on between two calls of <see cref="At"/>, at least 1.</summary>
    /// <remarks>A probe that wants to see every value, and which sample made it, says 1: what goes through the filters of the ECG as a run, or through those of a pulse in lanes, is not seen. Without a probe there is no limit, and none is compiled.</remarks>
    int MostAtOnce => int.MaxValue;

    /// <summary>A value was made.</summary>
    /// <param name="point">Where.</param>
    /// <param name="value">The value.</param>
    void See(ProbePoint point, int value);

    /// <summary>Samples are about to be worked on: values seen from now on are made by their arrival.</summary>
    /// <param name="channel">What is measured: 0 ECG, 1 red, 2 infrared, 3 green, 4 dark, 5 to 7 the axes of the acceleration.</param>
    /// <param name="sample">Index of the first of them in its channel.</param>
    /// <remarks>Told by whoever feeds the stages; a stage does not know its channel.</remarks>
    void At(int channel, long sample)
    {
    }

    /// <summary>A stage has dropped bits.</summary>
    /// <param name="point">The value that came out of it.</param>
    /// <param name="before">The exact value, in units of 2^−bits of what came out.</param>
    /// <param name="after">What came out.</param>
    /// <param name="bits">Bits dropped, 0 to 31; 0: nothing was.</param>
    void Round(ProbePoint point, int before, int after, int bits)
    {
    }
}

/// <summary>Sees nothing.</summary>
public readonly struct NoProbe : IProbe
{
    /// <inheritdoc/>
    public int MostAtOnce => int.MaxValue;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void See(ProbePoint point, int value)
    {
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void At(int channel, long sample)
    {
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Round(ProbePoint point, int before, int after, int bits)
    {
    }
}
