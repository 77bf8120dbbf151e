// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Signals.Detectors;

/// <summary>Makes detectors of one kind; a study makes one per worker and starts it anew for each run.</summary>
/// <remarks>Safe to call from several threads at once.</remarks>
public interface IDetectorFactory : IDisposable
{
    /// <summary>
    /// What fixes the answers: name and version, of a file also the SHA-256 of its bytes. Part of a study's identity, so the same detector
    /// has the same text on every machine.
    /// </summary>
    string Identity { get; }

    /// <summary>Constants of the detector that a study may vary; names begin with <c>detector.</c>; empty when there are none.</summary>
    IReadOnlyList<NumberKey> Constants { get; }

    /// <summary>Makes a detector.</summary>
    /// <param name="constants">Values of some constants, by their names; the others keep their defaults.</param>
    /// <returns>The detector; the caller disposes of it.</returns>
    IDetector Create(IReadOnlyDictionary<string, double> constants);
}
