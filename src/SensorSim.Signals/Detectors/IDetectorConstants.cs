// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Signals.Detectors;

/// <summary>What a detector also implements when it has constants that a study may vary.</summary>
public interface IDetectorConstants
{
    /// <summary>The constants; each name begins with <c>detector.</c> and is unique. The same for every instance of the class.</summary>
    IReadOnlyList<NumberKey> Constants { get; }

    /// <summary>Gives a constant another value than its default; called before <see cref="IDetector.Start"/>, and holds for every start that follows.</summary>
    /// <param name="name">Name of one of <see cref="Constants"/>.</param>
    /// <param name="value">Value within its range [unit of the constant].</param>
    void SetConstant(string name, double value);
}
