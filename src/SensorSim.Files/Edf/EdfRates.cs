// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>Rates of signals: samples per record over its duration.</summary>
internal static class EdfRates
{
    // A duration with as many decimals was rounded to fit its eight characters; with fewer it is meant as it stands.
    private const int RoundedDecimals = 5;

    /// <summary>Highest rate of a channel [Hz]: whoever reads a second at a time needs memory for it, and a header can claim anything.</summary>
    public const int HighestHz = 1_000_000;

    /// <summary>Rate [Hz].</summary>
    public static double Hz(EdfHeader header, EdfSignal signal) => (double)(signal.SamplesPerRecord / header.RecordDurationS);

    /// <summary>The rate as a whole number.</summary>
    /// <returns>The rate [Hz]; null when it is none up to <see cref="HighestHz"/>, even if the last decimal of the duration was rounded.</returns>
    public static int? Whole(EdfHeader header, EdfSignal signal)
    {
        decimal duration = header.RecordDurationS;
        decimal rate = Math.Round(signal.SamplesPerRecord / duration);
        if (rate is < 1 or > HighestHz)
        {
            return null;
        }

        decimal halfStep = duration.Scale < RoundedDecimals ? 0 : 0.5m / (decimal)Math.Pow(10, duration.Scale);
        return Math.Abs((rate * duration) - signal.SamplesPerRecord) <= rate * halfStep ? (int)rate : null;
    }
}
