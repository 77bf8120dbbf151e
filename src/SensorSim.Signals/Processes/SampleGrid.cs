// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Processes;

/// <summary>Equally spaced sampling instants: sample n is taken at start + n × step, in body time.</summary>
/// <param name="StartSeconds">Instant of sample 0 [s].</param>
/// <param name="StepSeconds">Time from one sample to the next [s], above 0.</param>
public readonly record struct SampleGrid(double StartSeconds, double StepSeconds)
{
    // Only to find the neighbourhood of an index faster than by a division.
    private readonly double _rateHz = 1 / StepSeconds;

    /// <summary>Instant of a sample [s].</summary>
    /// <param name="index">Sample index.</param>
    public double Seconds(long index) => StartSeconds + (index * StepSeconds);

    /// <summary>Index of the first sample at or after an instant; exact with respect to <see cref="Seconds"/>.</summary>
    /// <param name="seconds">Instant [s].</param>
    public long FirstAtOrAfter(double seconds)
    {
        // Whole numbers as doubles all along: nothing waits for a conversion.
        double index = Math.Ceiling((seconds - StartSeconds) * _rateHz);

        // That is rounded; the definition is by Seconds, so that every part of the project draws the line alike.
        while (StartSeconds + (index * StepSeconds) < seconds)
        {
            index++;
        }

        while (StartSeconds + ((index - 1) * StepSeconds) >= seconds)
        {
            index--;
        }

        return (long)index;
    }
}
