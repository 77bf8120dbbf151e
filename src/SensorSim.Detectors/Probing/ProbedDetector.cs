// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Probing;

/// <summary>The library with a look inside: the same marks, and <see cref="LibraryDetector{TProbe}.Probe"/> sees its intermediate values.</summary>
public sealed class ProbedDetector : LibraryDetector<StageProbe>
{
}
