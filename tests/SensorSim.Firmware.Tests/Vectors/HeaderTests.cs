// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Vectors;

/// <summary>The C library, fed from each shipped C header, gives the expected answers that lie beside the header, to the byte.</summary>
/// <remarks>That the headers compile for boards and that emulated boards answer the same is tests/firmware/vectors.sh.</remarks>
[TestFixture]
public sealed class HeaderTests
{
    // Four cases of the shipped set have one, as its plan wants for firmware of little room.
    private const int LeastHeaders = 4;

    private static string Set => Path.Combine(CCompiler.Root, "waveforms", "vectors");

    private static string[] Headers => Directory.Exists(Set)
        ? [.. Directory.EnumerateFiles(Set, "*.h", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Set, path).Replace('\\', '/')).Order(StringComparer.Ordinal)]
        : [];

    [Test]
    public void Set_HasHeaders() => Assert.That(Headers, Has.Length.AtLeast(LeastHeaders));

    [TestCaseSource(nameof(Headers))]
    public void Answers_FromHeader_AreTheExpectedOnes(string header)
    {
        string path = Path.Combine(Set, header);
        HeaderAnswers got = HeaderAnswers.Of(path);
        Assert.That(got.Count, Is.Positive, "nothing was compared");
        Assert.That(got.Detections, Is.EqualTo(File.ReadAllText(Path.ChangeExtension(path, ".expected.csv"))));
    }

    [Test]
    public void Answers_FromChangedHeader_AreOthers()
    {
        string path = Path.Combine(Set, Headers[0]);
        string text = File.ReadAllText(path);
        int at = text.IndexOf("_codes[", StringComparison.Ordinal);
        int begin = text.IndexOf('{', at) + 1;
        int end = text.IndexOf('}', begin);
        string[] codes = text[begin..end].Split(',');

        // A second of samples, a quarter of the way in, is held at its first value: no beat or pulse looks like that.
        int first = codes.Length / 4;
        for (int i = 0; i < 250 && first + i < codes.Length; i++)
        {
            codes[first + i] = codes[first];
        }

        string changed = Path.Combine(Twins.TwinBuild.Folder, "changed.h");
        File.WriteAllText(changed, text[..begin] + string.Join(',', codes) + text[end..]);
        Assert.That(HeaderAnswers.Of(changed).Detections, Is.Not.EqualTo(File.ReadAllText(Path.ChangeExtension(path, ".expected.csv"))));
    }
}
