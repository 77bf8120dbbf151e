// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Grading;

/// <summary>What the command line asks for.</summary>
internal sealed record GradingOptions
{
    /// <summary>How to call it.</summary>
    public const string Usage =
        "usage: dotnet run -c Release --project tests/SensorSim.Grading -- [group ...] [--seeds N] [--quick] [--workers N] [--out FILE] [--self-check]";

    /// <summary>Groups to run; none for all.</summary>
    public IReadOnlyList<string> Groups { get; init; } = [];

    /// <summary>Seeds of each graded scenario, from 1 on.</summary>
    public int Seeds { get; init; } = 5;

    /// <summary>Fewer seeds, persons and days.</summary>
    public bool IsQuick { get; init; }

    /// <summary>Puts truth itself in the place of the detector: every requirement then has to be met, else this program is wrong.</summary>
    public bool IsSelfCheck { get; init; }

    /// <summary>Threads that run at a time.</summary>
    public int Workers { get; init; } = 2;

    /// <summary>File for the table; null for the standard output.</summary>
    public string? OutFile { get; init; }

    /// <summary>Persons of the clean set, subject seeds from 1 on.</summary>
    public int Subjects => IsQuick ? 3 : 10;

    /// <summary>Days of mixed activity, seeds and subject seeds from 1 on; fewer than three cannot show less than one event a day.</summary>
    public int Days => IsQuick ? 3 : 5;

    /// <summary>Saturations of the blood are this far apart [%].</summary>
    public int SaturationStep => IsQuick ? 10 : 5;

    /// <summary>Reads the command line.</summary>
    /// <param name="arguments">The words.</param>
    /// <param name="groups">Names of the groups there are.</param>
    /// <exception cref="FormatException">Something is wrong; the message says what.</exception>
    public static GradingOptions Parse(string[] arguments, IReadOnlyCollection<string> groups)
    {
        var chosen = new List<string>();
        var options = new GradingOptions();
        bool areSeedsGiven = false;
        for (int i = 0; i < arguments.Length; i++)
        {
            string word = arguments[i];
            switch (word)
            {
                case "--quick":
                    options = options with { IsQuick = true };
                    break;
                case "--self-check":
                    options = options with { IsSelfCheck = true };
                    break;
                case "--seeds":
                    options = options with { Seeds = Whole(arguments, ++i, word, 1, 20) };
                    areSeedsGiven = true;
                    break;
                case "--workers":
                    options = options with { Workers = Whole(arguments, ++i, word, 1, 64) };
                    break;
                case "--out":
                    options = options with { OutFile = Value(arguments, ++i, word) };
                    break;
                default:
                    if (!groups.Contains(word))
                    {
                        throw new FormatException($"{word} is neither an option nor a group; the groups are {string.Join(", ", groups)}");
                    }

                    chosen.Add(word);
                    break;
            }
        }

        return options with { Groups = chosen, Seeds = options.IsQuick && !areSeedsGiven ? 2 : options.Seeds };
    }

    private static string Value(string[] arguments, int index, string option) =>
        index < arguments.Length ? arguments[index] : throw new FormatException($"{option} needs a value after it");

    private static int Whole(string[] arguments, int index, string option, int low, int high) =>
        int.TryParse(Value(arguments, index, option), NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value >= low && value <= high
            ? value
            : throw new FormatException($"{option} {arguments[index]} must be a whole number from {low} to {high}");
}
