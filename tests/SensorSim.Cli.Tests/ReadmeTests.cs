// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Tests;

/// <summary>The README shows what the command really prints.</summary>
[TestFixture]
public sealed class ReadmeTests : CommandTest
{
    [Test]
    public void Readme_FirstCommand_PrintsWhatIsShown()
    {
        string previous = Environment.CurrentDirectory;
        Environment.CurrentDirectory = Root;
        try
        {
            Answer answer = Command.Run("run", "waveforms/scenarios/rest-finger.toml", "--out", At("rest"));
            string readme = File.ReadAllText(Path.Combine(Root, "README.md"));
            int begin = readme.IndexOf("```\nrest, finger clip\n", StringComparison.Ordinal) + 4;
            string shown = readme[begin..readme.IndexOf("\n```", begin, StringComparison.Ordinal)];

            Assert.That(Lines(answer.Out), Is.EqualTo(Lines(shown)));
        }
        finally
        {
            Environment.CurrentDirectory = previous;
        }
    }

    [Test]
    public void Readme_Links_LeadToFiles()
    {
        string readme = File.ReadAllText(Path.Combine(Root, "README.md"));
        foreach (string part in readme.Split("](").Skip(1))
        {
            string target = part[..part.IndexOf(')', StringComparison.Ordinal)];
            if (!target.StartsWith("http", StringComparison.Ordinal))
            {
                Assert.That(Path.Exists(Path.Combine(Root, target)), target);
            }
        }
    }

    // Blank lines and blanks at line ends are only layout.
    private static string[] Lines(string text) => [.. text.Split('\n').Select(l => l.TrimEnd()).Where(l => l.Length > 0)];
}
