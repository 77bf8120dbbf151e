// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Oxygen;

/// <summary>From ratio of ratios to saturation and back, as calibrated: straight lines between given pairs.</summary>
public sealed class CalibrationTable
{
    /// <summary>Most pairs of a table.</summary>
    public const int MostPairs = 40;

    private readonly double[] _ratios;
    private readonly double[] _percents;

    private CalibrationTable(double[] ratios, double[] percents)
    {
        _ratios = ratios;
        _percents = percents;
    }

    /// <summary>The textbook line: saturation = 110 − 25 · ratio, from 100 % down to 0.</summary>
    /// <remarks>Source: Webster, Design of Pulse Oximeters, 1997 (from memory); fair for ratios of 0.4 to 1.0.</remarks>
    public static CalibrationTable Textbook { get; } = new([0.4, 4.4], [100, 0]);

    /// <summary>Lowest saturation of the table [%]; the ratio is held at that end.</summary>
    public double LowestPercent => _percents[^1];

    /// <summary>Highest saturation of the table [%]; the ratio is held at that end.</summary>
    public double HighestPercent => _percents[0];

    /// <summary>Reads a table from text: pairs ratio:saturation with commas between.</summary>
    /// <param name="text">For example "0.4:100, 0.6:95"; empty stands for the textbook line.</param>
    /// <param name="table">Receives the table.</param>
    /// <returns>Empty when all is well, else one sentence that says what is wrong.</returns>
    public static string Read(string text, out CalibrationTable table)
    {
        ArgumentNullException.ThrowIfNull(text);
        table = Textbook;
        if (string.IsNullOrWhiteSpace(text))
        {
            return "";
        }

        string[] parts = text.Split(',');
        if (parts.Length is < 2 or > MostPairs)
        {
            return "a calibration table needs 2 to 40 pairs of ratio and saturation with commas between, for example 0.4:100, 0.6:95";
        }

        double[] ratios = new double[parts.Length];
        double[] percents = new double[parts.Length];
        for (int i = 0; i < parts.Length; i++)
        {
            string pair = parts[i].Trim();
            int colon = pair.IndexOf(':', StringComparison.Ordinal);
            if (colon < 0 || !DecimalText.TryRead(pair.AsSpan(0, colon).Trim(), out ratios[i]) || !DecimalText.TryRead(pair.AsSpan(colon + 1).Trim(), out percents[i]))
            {
                return $"\"{pair}\" is no pair of ratio and saturation such as 0.4:100";
            }

            string wrong = Wrong(ratios, percents, i, pair);
            if (wrong.Length > 0)
            {
                return wrong;
            }
        }

        table = new CalibrationTable(ratios, percents);
        return "";
    }

    /// <summary>Saturation at a ratio [%]; beyond the table the value of its end.</summary>
    /// <param name="ratio">Ratio of ratios.</param>
    public double Percent(double ratio)
    {
        if (ratio <= _ratios[0])
        {
            return _percents[0];
        }

        int i = 1;
        while (i < _ratios.Length && _ratios[i] < ratio)
        {
            i++;
        }

        return i == _ratios.Length
            ? _percents[^1]
            : _percents[i - 1] + ((ratio - _ratios[i - 1]) / (_ratios[i] - _ratios[i - 1]) * (_percents[i] - _percents[i - 1]));
    }

    /// <summary>Ratio at a saturation; beyond the table the value of its end.</summary>
    /// <param name="percent">Saturation [%].</param>
    public double Ratio(double percent)
    {
        if (percent >= _percents[0])
        {
            return _ratios[0];
        }

        int i = 1;
        while (i < _percents.Length && _percents[i] > percent)
        {
            i++;
        }

        return i == _percents.Length
            ? _ratios[^1]
            : _ratios[i - 1] + ((percent - _percents[i - 1]) / (_percents[i] - _percents[i - 1]) * (_ratios[i] - _ratios[i - 1]));
    }

    private static string Wrong(double[] ratios, double[] percents, int i, string pair)
    {
        if (!(ratios[i] >= 0.1 && ratios[i] <= 5))
        {
            return $"the ratio of {pair} is outside 0.1 to 5";
        }

        if (percents[i] > 100)
        {
            return $"the saturation of {pair} is above 100";
        }

        if (i > 0 && ratios[i] <= ratios[i - 1])
        {
            return $"the ratio of {pair} must be greater than the one before it";
        }

        return i > 0 && percents[i] >= percents[i - 1] ? $"the saturation of {pair} must be less than the one before it" : "";
    }
}
