// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>The twin gives the same with every compiler and at every level of optimising, and does nothing that C leaves undefined.</summary>
[TestFixture]
public sealed class CompilerTests
{
    private static readonly string[] s_sanitized = ["-O1", "-g", "-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-DTWIN_PROGRAM"];
    private string _stream = "";
    private string _expected = "";

    [OneTimeSetUp]
    public void Dump()
    {
        _stream = Path.Combine(TwinBuild.Folder, "streams.bin");
        using var twin = new TwinLibrary(TwinBuild.Make("gcc", "libtwin-dump.so", "-O2", "-shared", "-fPIC"));
        using var dump = new StreamDump(_stream);
        var all = new List<Both>
        {
            TwinStreams.Scenario("waveforms/scenarios/all-on.toml", 60, TwinCases.Options[1], twin, dump),
            TwinStreams.Scenario("waveforms/scenarios/walking-wrist.toml", 60, TwinCases.Options[0], twin, dump),
            TwinStreams.Scenario("waveforms/scenarios/rest-finger.toml", 60, TwinCases.Options[2], twin, dump),
        };
        for (int seed = 1; seed <= 24; seed++)
        {
            all.Add(TwinStreams.Hostile(seed, 60, 0, TwinCases.Options[seed % TwinCases.Options.Length], twin, dump));
        }

        Assert.That(all.Select(both => both.Difference), Is.All.Null);
        _expected = dump.Expected;
    }

    [TestCase("gcc", "-O0")]
    [TestCase("gcc", "-O3", Category = "Slow")]
    [TestCase("gcc", "-Os", Category = "Slow")]
    [TestCase("clang", "-O0", Category = "Slow")]
    [TestCase("clang", "-O3")]
    public void Answers_OfOtherBuild_AreTheSame(string compiler, string level)
    {
        string program = TwinBuild.Make(compiler, $"twin-{compiler}{level}", level, "-DTWIN_PROGRAM");
        Assert.That(CCompiler.Run(program, _stream).Trim(), Is.EqualTo(_expected));
    }

    [TestCase("gcc")]
    [TestCase("clang", Category = "Slow")]
    public void Run_UnderSanitizers_FindsNothing(string compiler)
    {
        string program = TwinBuild.Make(compiler, $"twin-{compiler}-sanitized", s_sanitized);
        Assert.That(CCompiler.Run(program, _stream).Trim(), Is.EqualTo(_expected));
    }

    [Test]
    public void Answers_WithPortableHelpers_AreTheSame()
    {
        // A compiler that is not known: counting and shifting in plain C.
        string program = TwinBuild.Make("gcc", "twin-portable", "-O1", "-DTWIN_PROGRAM", "-DSS_PLAIN_C");
        Assert.That(CCompiler.Run(program, _stream).Trim(), Is.EqualTo(_expected));
    }

    [TestCase("cortex-m0")]
    [TestCase("cortex-m0plus", Category = "Slow")]
    [TestCase("cortex-m3", Category = "Slow")]
    [TestCase("cortex-m4", Category = "Slow")]
    public void Library_OfCore_BuildsWithoutAWarning(string core)
    {
        string output = Path.Combine(TwinBuild.Folder, core + ".o");
        string[] linked = [.. TwinBuild.LibraryFiles, Path.Combine(TwinBuild.Firmware, "adapter", "library_adapter.c")];
        CCompiler.Run("arm-none-eabi-gcc", [.. TwinBuild.Strict, .. TwinBuild.Includes, "-Os", "-mcpu=" + core, "-mthumb", "-nostdlib", "-r", "-o", output, .. linked]);
        string[] missing = [.. CCompiler.Run("arm-none-eabi-nm", "-u", output).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Trim()[2..])];

        // Of the C library memset and memcpy, and memmove where GCC makes one of a loop; the rest is the compiler's own arithmetic of 64 bits.
        Assert.That(missing.Where(name => !name.StartsWith("__aeabi_", StringComparison.Ordinal) && !name.StartsWith("__gnu_thumb1_case", StringComparison.Ordinal)
            && !name.StartsWith("__clz", StringComparison.Ordinal)), Is.SubsetOf((string[])["memset", "memcpy", "memmove"]));
        TestContext.Out.WriteLine(CCompiler.Run("arm-none-eabi-size", output));
    }
}
