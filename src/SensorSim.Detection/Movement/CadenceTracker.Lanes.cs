// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Eight products at once.</content>
public partial struct CadenceTracker
{
    private readonly long RepeatsInLanes(int lag)
    {
        // The oldest first.
        Half64 turned = default;
        Span<short> line = turned;
        ReadOnlySpan<short> held = _held;
        held[_at..].CopyTo(line);
        held[.._at].CopyTo(line[(Ring - _at)..]);
        return AcrossLanes.Products(line[(Ring - Products)..], line.Slice(Ring - Products - lag, Products));
    }
}
