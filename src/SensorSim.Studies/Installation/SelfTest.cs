// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Studies.Installation;

/// <summary>The checks of an installation, in the order in which one stands on the other.</summary>
public static class SelfTest
{
    /// <summary>Makes every check; one that cannot be made has failed, and the next ones are made all the same.</summary>
    /// <param name="checks">The checks.</param>
    /// <param name="cancellation">Set when the user interrupts.</param>
    public static IReadOnlyList<CheckOutcome> Run(IReadOnlyList<Check> checks, CancellationToken cancellation)
    {
        var outcomes = new List<CheckOutcome>(checks.Count);
        foreach (Check check in checks)
        {
            cancellation.ThrowIfCancellationRequested();
            outcomes.Add(new CheckOutcome(check.Name, check.Proves, Find(check)));
        }

        return outcomes;
    }

    private static CheckFinding Find(Check check)
    {
        try
        {
            return check.Run();
        }
        catch (ScenarioException e)
        {
            return CheckFinding.Failed(OneLine.Of(e.Mistakes[0].ToString()));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException or NotSupportedException or InvalidDataException)
        {
            return CheckFinding.Failed(OneLine.Of(e.Message));
        }
    }
}
