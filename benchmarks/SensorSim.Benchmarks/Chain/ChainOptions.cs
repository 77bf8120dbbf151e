// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Benchmarks.Chain;

/// <summary>What the chain mode was asked for.</summary>
/// <param name="Seconds">Length of each run [s of signal].</param>
/// <param name="Repeats">Runs of each kind; the quickest counts.</param>
/// <param name="WithScript">Whether the script of the baseline is run in between.</param>
internal sealed record ChainOptions(int Seconds, int Repeats, bool WithScript)
{
    /// <summary>How to call it.</summary>
    public const string Usage = """
        usage: chain [--seconds N] [--repeats N] [--no-script]
          --seconds N   length of each run in seconds of signal, 60 to 604800 (default 3600)
          --repeats N   runs of each kind, 1 to 100; the quickest counts (default 5)
          --no-script   without the numpy/scipy script
        """;

    /// <summary>Reads the arguments.</summary>
    /// <param name="arguments">The arguments.</param>
    /// <exception cref="FormatException">One is wrong; the message says which.</exception>
    public static ChainOptions Parse(string[] arguments)
    {
        var options = new ChainOptions(3600, 5, true);
        for (int i = 0; i < arguments.Length; i++)
        {
            options = arguments[i] switch
            {
                "--seconds" => options with { Seconds = Number(arguments, ++i, 60, 604_800) },
                "--repeats" => options with { Repeats = Number(arguments, ++i, 1, 100) },
                "--no-script" => options with { WithScript = false },
                _ => throw new FormatException($"{arguments[i]} is no option of chain."),
            };
        }

        return options;
    }

    private static int Number(string[] arguments, int index, int minimum, int maximum)
    {
        string text = index < arguments.Length ? arguments[index] : "";
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value >= minimum && value <= maximum
            ? value
            : throw new FormatException($"{arguments[index - 1]} takes a whole number from {minimum} to {maximum}, not \"{text}\".");
    }
}
