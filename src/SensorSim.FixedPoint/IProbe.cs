// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Sees named intermediate values as they are made. A struct without content costs nothing: the calls vanish.</summary>
/// <remarks>Methods on the sample path are generic in it; the state of the stages is not.</remarks>
public interface IProbe
{
    /// <summary>A value was made.</summary>
    /// <param name="point">Where.</param>
    /// <param name="value">The value.</param>
    void See(ProbePoint point, int value);
}

/// <summary>Sees nothing.</summary>
public readonly struct NoProbe : IProbe
{
    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void See(ProbePoint point, int value)
    {
    }
}
