// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Probing;

/// <summary>The library with a look inside: the same marks, and <see cref="LibraryDetector{TProbe}.Probe"/> sees its intermediate values.</summary>
public sealed class ProbedDetector : LibraryDetector<StageProbe>
{
    /// <summary>Creates the library without knowledge of sensor or wearer.</summary>
    public ProbedDetector()
        : this(null)
    {
    }

    /// <summary>Creates the library.</summary>
    /// <param name="calibration">What it is told of sensor and wearer; null: nothing.</param>
    public ProbedDetector(DetectorCalibration? calibration)
        : base(calibration)
    {
    }
}
