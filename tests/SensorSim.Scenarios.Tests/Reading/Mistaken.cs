// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Reads texts that hold mistakes.</summary>
internal static class Mistaken
{
    /// <summary>The mistakes of a text; fails when it has none or when anything else than the stated exception comes.</summary>
    public static IReadOnlyList<ScenarioMistake> In(string text)
    {
        var e = Assert.Throws<ScenarioException>(() => ScenarioReader.ReadText(text, "a.toml"));
        foreach (ScenarioMistake mistake in e!.Mistakes)
        {
            AssertOneLine(mistake);
        }

        return e.Mistakes;
    }

    /// <summary>The only mistake of a text, as the user sees it.</summary>
    public static string Line(string text)
    {
        IReadOnlyList<ScenarioMistake> mistakes = In(text);
        Assert.That(mistakes, Has.Count.EqualTo(1), string.Join('\n', mistakes));
        return mistakes[0].ToString();
    }

    private static void AssertOneLine(ScenarioMistake mistake)
    {
        string line = mistake.ToString();
        Assert.That(line.Any(char.IsControl), Is.False, line);
        Assert.That(line, Has.Length.LessThan(400));
    }
}
