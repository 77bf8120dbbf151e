// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.CommandLine.Help;
using System.Globalization;
using System.Text.Json;
using SensorSim.Cli.Output;
using SensorSim.Cli.Tests.Boards;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli.Tests;

/// <summary>Wrong command lines: exit code 2, what is wrong and what would be right, nothing on the output.</summary>
[TestFixture]
public sealed class UsageTests : CommandTest
{
    private static readonly string[] s_verbs = ["run", "record", "replay", "detect", "score", "sweep", "compare", "challenge", "vectors", "selftest", "schema", "explain"];

    [TestCase("", "give a verb; the verbs are run, record, replay, detect, score, sweep, compare, challenge, vectors, selftest, schema, explain")]
    [TestCase("rnu", "rnu is no verb; the nearest is run; the verbs are run, record, replay, detect, score, sweep, compare, challenge, vectors, selftest, schema, explain")]
    [TestCase("--foo", "--foo is no option here; give a verb first; the verbs are run, record, replay, detect, score, sweep, compare, challenge, vectors, selftest, schema, explain")]
    [TestCase("run", "run needs SCENARIO: Scenario file (TOML)")]
    [TestCase("run --foo", "--foo is no option of run; the nearest is --out")]
    [TestCase("run a.toml --sead=3", "--sead is no option of run; the nearest is --seed")]
    [TestCase("run a.toml b.toml", "b.toml is one word too many for run")]
    [TestCase("record a.toml --jsn", "--jsn is no option of record; the nearest is --json")]
    [TestCase("detect", "detect needs RECORDING: Folder written by record, an EDF or BDF file, or a CSV file with a header")]
    [TestCase("score a", "score needs MARKS: detections.csv")]
    [TestCase("explain a b", "b is one word too many for explain")]
    public void Run_WrongWords_SaysWhatWouldBeRight(string line, string expected) => Assert.That(
        Command.Refused(ExitCodes.WrongInput, line.Split(' ', StringSplitOptions.RemoveEmptyEntries)), Is.EqualTo(new[] { expected }));

    [TestCase("record", "--out")]
    [TestCase("run", "SCENARIO")]
    public void Run_Missing_NamesIt(string verb, string name) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, verb == "run" ? [verb] : [verb, Scenario()])[0], Does.Contain(name));

    [TestCase("run", "", "SCENARIO is empty")]
    [TestCase("detect", "", "RECORDING is empty")]
    [TestCase("explain", "", "KEY is empty")]
    public void Run_EmptyWord_IsNoPath(string verb, string word, string expected) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, verb, word)[0], Does.StartWith(expected));

    [Test]
    public void Run_EmptyOut_IsNoPath() =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--out", "")[0], Does.StartWith("--out is empty"));

    // A whole-number option and a real one, in the cultures whose separators are the other way round.
    [TestCase("--seed", "60.5")]
    [TestCase("--seed", "1e3")]
    [TestCase("--seed", "-1")]
    [TestCase("--seed", "9007199254740992")]
    [TestCase("--seed", "0x10")]
    [TestCase("--seed", "1,000")]
    [TestCase("--seed", "")]
    public void Run_BadSeed_IsRefused(string option, string value)
    {
        string scenario = Scenario();
        foreach (string culture in new[] { "", "de-DE", "tr-TR" })
        {
            string message = In(culture, () => Command.Refused(ExitCodes.WrongInput, "run", scenario, option, value)[0]);

            Assert.That(message, Does.StartWith(option));
        }
    }

    [TestCase("nan")]
    [TestCase("1e400")]
    [TestCase("-inf")]
    [TestCase("0x10")]
    [TestCase("60,5")]
    [TestCase("0.5")]
    [TestCase("ten")]
    [TestCase("10 ms")]
    public void Score_BadWindow_IsRefused(string value)
    {
        foreach (string culture in new[] { "", "de-DE" })
        {
            Assert.That(
                In(culture, () => Command.Refused(ExitCodes.WrongInput, "score", "t.csv", "m.csv", "--window-ms", value)[0]),
                Is.EqualTo($"--window-ms {value} must be a number from 1 to 10000, with a point for decimals"));
        }
    }

    // Under German rules 60.5 would be 605 for a careless parser: the window would then match what is 100 ms off.
    [TestCase("")]
    [TestCase("de-DE")]
    public void Score_WindowWithPoint_IsReadTheSameInEveryCulture(string culture)
    {
        string truth = Write("beats.csv", "time_s\n10\n12\n14\n");
        string marks = Write("d.csv", "channel,kind,time_ns\necg,r_peak,10060000000\necg,r_peak,12061000000\necg,r_peak,14100000000\n");

        Answer answer = In(culture, () => Command.Run("score", truth, marks, "--duration-s", "20", "--window-ms", "60.5", "--json"));

        Assert.That(answer.Out, Does.Contain("\"match_window_ms\": 60.5,").And.Contain("\"matched\": 1,"));
    }

    [TestCase("run")]
    [TestCase("record")]
    [TestCase("replay")]
    [TestCase("detect")]
    [TestCase("score")]
    [TestCase("schema")]
    [TestCase("explain")]
    public void Help_OfAVerb_EndsWithExamples(string verb)
    {
        Answer answer = Command.Run(verb, "--help");

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        string[] lines = answer.Out.TrimEnd('\n').Split('\n');
        Assert.That(lines[Array.IndexOf(lines, "Examples:")..], Has.Length.GreaterThan(1));
        Assert.That(lines[^1], Does.StartWith($"  sensorsim {verb}"));
    }

    // As wide as a terminal: longer lines are wrapped, and no blank is left where they are.
    [TestCase(60)]
    [TestCase(80)]
    [TestCase(120)]
    public void Help_Wrapped_HasNoBlanksAtTheEnds(int width)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var terminal = new Terminal(output, error, isErrorTerminal: false);
        var root = new RootCommand("first words") { new Option<bool>("--option") { Description = string.Join(' ', Enumerable.Repeat("of a description", 20)) } };
        foreach (HelpOption help in root.Options.OfType<HelpOption>())
        {
            ((HelpAction)help.Action!).MaxWidth = width;
        }

        HelpText.Install(root, terminal);
        int code = root.Parse(["--help"]).Invoke(new InvocationConfiguration { Output = terminal.Out });
        string[] lines = System.Text.Encoding.UTF8.GetString(output.ToArray()).Split('\n');

        Assert.That(code, Is.Zero);
        Assert.That(lines.TakeWhile(l => l != "Exit codes:").Where(l => l.Contains("description", StringComparison.Ordinal)).ToArray(), Has.Length.GreaterThan(2).And.All.Length.LessThanOrEqualTo(width));
        Assert.That(lines.Where(l => l.EndsWith(' ')), Is.Empty);
        Assert.That(lines.Zip(lines[1..]).Count(p => p.First.Length + p.Second.Length == 0), Is.Zero, "two empty lines");
    }

    [Test]
    public void Help_OfTheCommand_NamesVerbsAndExitCodes()
    {
        Answer answer = Command.Run("--help");

        Assert.That(answer.Code, Is.Zero);
        Assert.That(s_verbs.Where(v => !answer.Out.Contains($"  {v}", StringComparison.Ordinal)), Is.Empty);
        Assert.That(answer.Out, Does.Contain("130 interrupted"));
    }

    [Test]
    public void Help_Examples_DoWhatTheySay()
    {
        foreach (string example in s_verbs.SelectMany(v => Examples(Command.Run(v, "--help").Out)))
        {
            string[] words = [.. example.Split(' ').Skip(1).Select(Place)];
            if (words.Any(w => w.Contains("recorded", StringComparison.Ordinal)) && !Directory.Exists(Path.Combine(Root, "waveforms", "recorded")))
            {
                continue;
            }

            MakeNextSweep(words);
            using BoardPort? board = BoardFor(ref words);
            Answer answer = Command.Run(words);

            // Whether the detector is good enough is not the question here.
            Assert.That(answer.Code, Is.AnyOf(ExitCodes.Done, ExitCodes.NotMet), $"{example}: {answer.Error}");
            Assert.That(answer.Out, Is.Not.Empty);
        }
    }

    // The ports of the examples are those of a bench, and real time is the user's: a board behind a TCP port, two hundred times as fast.
    private static BoardPort? BoardFor(ref string[] words)
    {
        int link = Array.IndexOf(words, "--link");
        if (link < 0)
        {
            return null;
        }

        string scenario = Path.Combine(Root, "waveforms", "scenarios", "rest-finger.toml");
        BoardPort board = words[0] == "record" ? new BoardPort(l => new SamplingBoard(l, ScenarioReader.ReadFile(scenario))) : new BoardPort();
        words[link + 1] = board.Address;
        int baud = Array.IndexOf(words, "--baud");
        words = baud < 0 ? words : [.. words[..baud], .. words[(baud + 2)..]];
        words = words[0] == "replay" && !words.Contains("--as-fast-as-possible") ? [.. words, "--speed", "200"] : words;
        return board;
    }

    // What another version of the detector would have left behind: here the same results once more.
    private static void MakeNextSweep(string[] words)
    {
        if (words[0] != "compare" || words.FirstOrDefault(w => w.EndsWith("muscle-next", StringComparison.Ordinal)) is not string next || Directory.Exists(next))
        {
            return;
        }

        Directory.CreateDirectory(next);
        foreach (string file in Directory.GetFiles(next[..^"-next".Length]))
        {
            File.Copy(file, Path.Combine(next, Path.GetFileName(file)));
        }
    }

    [Test]
    public void Version_Asked_IsThatOfProgramDetectorAndGenerator()
    {
        Answer answer = Command.Run("--version");
        Answer run = Command.Run("run", Write("s.toml", "[scenario]\nduration_s = 12\n"), "--json");
        using var summary = JsonDocument.Parse(run.Out);

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        Assert.That(answer.Out, Does.Match(@"^\d+\.\d+\.\d+\n"));
        Assert.That(answer.Out.Split('\n')[1..], Is.EqualTo(new[]
        {
            $"detector: {summary.RootElement.GetProperty("detector").GetString()}",
            $"generator version: {summary.RootElement.GetProperty("generator_version").GetInt32()}",
            "",
        }));
    }

    [TestCase("extra", "--version", "extra")]
    [TestCase("extra", "extra", "--version")]
    [TestCase("explain", "--version", "explain")]
    [TestCase("--json", "--version", "--json")]
    public void Version_WithMore_IsRefused(string word, params string[] args) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, args), Is.EqualTo(new[] { $"{word} is one word too many: --version stands alone" }));

    private static IEnumerable<string> Examples(string help) =>
        help.Split('\n').SkipWhile(l => l != "Examples:").Skip(1).Select(l => l.Trim()).Where(l => l.Length > 0);

    private string Place(string word) =>
        word.StartsWith("waveforms/", StringComparison.Ordinal) ? Path.Combine(Root, word)
        : word.StartsWith("out/", StringComparison.Ordinal) ? At(word)
        : word;

    private static T In<T>(string culture, Func<T> call)
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo(culture);
            return call();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
