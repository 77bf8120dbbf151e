// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Plans;

namespace SensorSim.Cli.Commands;

/// <summary>The factories of a study's detectors, for as long as the study runs.</summary>
internal sealed class OpenDetectors : IDisposable
{
    private readonly List<IDetectorFactory> _factories = [];

    /// <summary>Opens each of them.</summary>
    /// <exception cref="NotSupportedException">One cannot be loaded.</exception>
    public OpenDetectors(StudyPlan plan)
    {
        try
        {
            foreach (DetectorChoice choice in plan.Detectors)
            {
                _factories.Add(DetectorFactories.Open(choice));
            }
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>The factories in the order of the detectors.</summary>
    public IReadOnlyList<IDetectorFactory> Factories => _factories;

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (IDetectorFactory factory in _factories)
        {
            factory.Dispose();
        }
    }
}
