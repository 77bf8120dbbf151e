// SPDX-License-Identifier: MIT
using NUnit.Framework;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Writing;
using SensorSim.Signals.Identity;

namespace SensorSim.Testing;

/// <summary>How a run that a test speaks of is made again by hand.</summary>
internal static class ByHand
{
    private const string Folder = "sensorsim-runs";

    /// <summary>A command line; it may need a scenario that exists only in the test, which is then written to a file.</summary>
    /// <param name="given">The scenario.</param>
    /// <param name="detector">What was tested.</param>
    /// <param name="seed">Seed of the run.</param>
    public static string Command(GivenScenario given, UnderTest detector, ulong seed)
    {
        Scenario scenario = given.Scenario.WithSeed(seed);
        bool isThere = given.IsInFile && scenario.Own.Count == 0;
        string path = isThere ? scenario.File : Write(scenario);
        string subject = isThere && scenario.Subject is { } person ? FormattableString.Invariant($" --subject-seed {person.Seed}") : "";
        string run = FormattableString.Invariant($"sensorsim run {Word(path)} --seed {seed}{subject}");
        return detector.CommandOptions switch
        {
            { Length: > 0 } options => $"{run} {options}",
            "" => run,
            _ when detector.HasAnswers => $"{run} --out FOLDER, then sensorsim score FOLDER/truth.csv {AnswersWord(detector.AnswersOf(seed).Name)} --acquisition FOLDER/acquisition.csv{AtHandNote(detector.AnswersOf(seed).Name)}",
            _ => $"{run} (shows the library; the detector of the test needs a public class with a constructor without parameters to be run by the command)",
        };
    }

    /// <summary>Options of <c>sensorsim vectors compare</c> that hold the same answers against the same set.</summary>
    public static string CompareOptions(UnderTest detector, VectorCase vectorCase) => detector switch
    {
        { CommandOptions: { Length: > 0 } options } => options,
        { HasAnswers: true } => $"--answers {AnswersWord(detector.AnswersOf(vectorCase).Name)}{AtHandNote(detector.AnswersOf(vectorCase).Name)}",
        { IsOwnLibrary: true } => $"--answers {Word(vectorCase.SetCase.ExpectedPath)}",
        _ => "--detector FILE (the detector of the test needs a public class with a constructor without parameters to be run by the command)",
    };

    /// <summary>A word as a shell takes it.</summary>
    public static string Word(string text) => text.Any(char.IsWhiteSpace) ? $"\"{text}\"" : text;

    /// <summary>A path in a test, as a shell takes it in whatever folder: that of the tests is seldom the one in which somebody types.</summary>
    public static string PathWord(string path) => Word(TestFile.Find(path));

    // Answers at hand are in no file.
    private static string AnswersWord(string name) => name == UnderTest.AtHand ? "ANSWERS" : PathWord(name);

    private static string AtHandNote(string name) => name == UnderTest.AtHand ? " (ANSWERS: a detections.csv with the answers of the test)" : "";

    private static string Write(Scenario scenario)
    {
        string folder = Path.Combine(TestContext.CurrentContext.WorkDirectory, Folder);
        Directory.CreateDirectory(folder);
        string text = ScenarioText.Write(scenario, folder, [$"Written by a test that failed: {TestContext.CurrentContext.Test.FullName}"]);
        string name = Path.GetFileNameWithoutExtension(scenario.File);
        string hash = Sha256Sum.Of(text)[..8];
        string path = Path.Combine(folder, $"{name}-{hash}.toml");
        File.WriteAllText(path, text);
        return path;
    }
}
