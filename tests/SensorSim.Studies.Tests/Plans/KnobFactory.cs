// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>A factory of a detector with constants; it makes none.</summary>
internal sealed class KnobFactory(string identity, params NumberKey[] constants) : IDetectorFactory
{
    public string Identity => identity;

    public IReadOnlyList<NumberKey> Constants => constants;

    public static NumberKey Knob(string name, double minimum, double maximum, bool isWhole = false) => new()
    {
        Name = name,
        Unit = "ms",
        Meaning = "A constant.",
        Source = "This test.",
        Minimum = minimum,
        Maximum = maximum,
        Default = minimum,
        IsWhole = isWhole,
    };

    public IDetector Create(IReadOnlyDictionary<string, double> constants) => throw new NotSupportedException("It is for names only.");

    public void Dispose()
    {
    }
}
