// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Resampling;

/// <summary>How to resample. The same options give the same resamples on every machine.</summary>
public sealed record BootstrapOptions
{
    /// <summary>Seed of the draws.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Resamples, 100 to 1,000,000.</summary>
    public int Resamples { get; init; } = 2000;

    /// <summary>Throws when a value is out of its range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Names the value and its range.</exception>
    public void Validate()
    {
        if (Resamples is < 100 or > 1_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(Resamples), Resamples, "Resamples must be 100 to 1000000.");
        }
    }
}
