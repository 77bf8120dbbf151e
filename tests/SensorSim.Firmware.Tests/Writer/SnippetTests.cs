// SPDX-License-Identifier: MIT
using System.Reflection;
using System.Runtime.InteropServices;
using SensorSim.Detection.Snippets;
using SensorSim.Firmware.Tests.Twins;
using SensorSim.Tests.Shared;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.Firmware.Tests.Writer;

/// <summary>The writer's C does what the C# does where the two languages part.</summary>
[TestFixture]
public sealed class SnippetTests
{
    private static readonly int[] s_words = [0, 1, -1, 2, 3, 7, 12, 31, 32, 33, 63, 64, 100, 255, 256, -256, 1000, 32_767, 32_768, -32_769, 65_535, 1 << 30, int.MaxValue, int.MinValue];

    private static readonly long[] s_longs = [0, 1, -1, 3, 255, -300, 70_000, 1L << 31, 1L << 32, -(1L << 33), 1L << 62, long.MaxValue, long.MinValue];

    private IntPtr _library;

    private delegate long Call(int a, int b, long c);

    private static IEnumerable<string> Names => typeof(Snippet).GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly).Select(method => method.Name);

    [OneTimeSetUp]
    public void Translate()
    {
        string source = Path.Combine(CCompiler.Root, "tests", "SensorSim.Firmware.Tests", "Writer", "Snippets.cs");
        IReadOnlyDictionary<string, string> files = LibraryWriter.Write(SourceSet.Read([new SourceFile("SensorSim.Detection/Snippets/Snippets.cs", File.ReadAllText(source))]));
        string folder = Path.Combine(TwinBuild.Folder, "snippets");
        foreach ((string path, string text) in files)
        {
            string full = Path.Combine(folder, path);
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            File.WriteAllText(full, text);
        }

        string output = Path.Combine(folder, "libsnippets.so");
        CCompiler.Run(
            "gcc", [.. TwinBuild.Strict, .. TwinBuild.Includes, "-I", folder, "-iquote", folder, "-O2", "-shared", "-fPIC", "-o", output, Path.Combine(folder, "snippets", "snippets.c")]);
        _library = NativeLibrary.Load(output);
    }

    [OneTimeTearDown]
    public void Unload() => NativeLibrary.Free(_library);

    [TestCaseSource(nameof(Names))]
    public void Snippet_InC_GivesTheSame(string name)
    {
        Call ours = typeof(Snippet).GetMethod(name)!.CreateDelegate<Call>();
        Call twins = Marshal.GetDelegateForFunctionPointer<Call>(NativeLibrary.GetExport(_library, "ss_snippet_" + Snake.Of(name)));
        var seen = new HashSet<long>();
        foreach (int a in s_words)
        {
            foreach (int b in s_words)
            {
                foreach (long c in s_longs)
                {
                    long expected = ours(a, b, c);
                    seen.Add(expected);
                    Assert.That(twins(a, b, c), Is.EqualTo(expected), $"{name}({a}, {b}, {c})");
                }
            }
        }

        Assert.That(seen, Has.Count.GreaterThan(1), "the snippet tells nothing");
    }
}
