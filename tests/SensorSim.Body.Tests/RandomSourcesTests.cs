// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Tests;

/// <summary>The named sources of randomness of the whole project, read from its source files: each name once, each hash once.</summary>
public sealed partial class RandomSourcesTests
{
    [Test]
    public void Names_WholeProject_AreUniqueAndSoAreTheirHashes()
    {
        var names = new List<string>();
        foreach (string file in Directory.EnumerateFiles(Path.Combine(Root(), "src"), "*.cs", SearchOption.AllDirectories))
        {
            foreach (Match call in Creation().Matches(File.ReadAllText(file)))
            {
                string[] found = [.. Names(call.Groups[1].Value)];
                Assert.That(found, Is.Not.Empty, $"{file}: a source of randomness needs its name as text where it is made");
                names.AddRange(found);
            }
        }

        Assert.That(names, Has.Count.GreaterThanOrEqualTo(80), "found too few: has the way of making them changed?");
        Assert.That(names, Is.Unique);
        Assert.That(names.Select(SourceName.Hash), Is.Unique);
        Assert.That(names, Has.All.Match("^[a-z_]+\\.[a-z_]+$"));
    }

    // The literals of an argument list; "..." + "xyz"[i] stands for one name for each letter.
    private static IEnumerable<string> Names(string arguments)
    {
        foreach (Match literal in Literal().Matches(arguments))
        {
            string letters = literal.Groups[2].Value;
            if (letters.Length == 0)
            {
                yield return literal.Groups[1].Value;
            }

            foreach (char letter in letters)
            {
                yield return literal.Groups[1].Value + letter;
            }
        }
    }

    private static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "SensorSim.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The tests must run inside the project's folder: SensorSim.sln not found above them.");
    }

    [GeneratedRegex("(?:new KeyedRandom|KeyedRandom\\??\\s+\\w+\\s*(?:=|=>)\\s*new)\\(([^)]*)\\)")]
    private static partial Regex Creation();

    [GeneratedRegex("\"([^\"]+)\"(?:\\s*\\+\\s*\"([^\"]+)\"\\[)?")]
    private static partial Regex Literal();
}
