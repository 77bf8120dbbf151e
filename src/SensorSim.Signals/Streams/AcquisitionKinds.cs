// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>What follows from a kind of acquisition event.</summary>
public static class AcquisitionKinds
{
    /// <summary>Whether the stretch is unusable: what lies inside is not scored.</summary>
    /// <param name="kind">The kind.</param>
    public static bool IsUnusable(this AcquisitionKind kind) => kind <= AcquisitionKind.UnusableNoContact;
}
