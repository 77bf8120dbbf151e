// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Choices;

/// <summary>Makes the project's own library.</summary>
public sealed class LibraryFactory : IDetectorFactory
{
    private readonly DetectorCalibration? _calibration;

    /// <summary>Creates the factory.</summary>
    /// <param name="calibration">What the library is told of sensor and wearer; null: nothing.</param>
    public LibraryFactory(DetectorCalibration? calibration = null) => _calibration = calibration;

    /// <inheritdoc/>
    public string Identity { get; } = new LibraryDetector().Name;

    /// <inheritdoc/>
    public IReadOnlyList<NumberKey> Constants => LibraryConstants.All;

    /// <inheritdoc/>
    public IDetector Create(IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        return new LibraryDetector(_calibration, constants);
    }

    /// <summary>Nothing to let go of.</summary>
    public void Dispose()
    {
    }
}
