// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;

namespace SensorSim.Files.Tests.VectorSets;

/// <summary>The first difference is found wherever it lies and however the bytes come.</summary>
public sealed class ByteComparisonTests
{
    [Test]
    public void The_first_difference_its_line_and_its_surroundings_are_found()
    {
        using var folder = new TestFolder();
        var random = new Random(3);
        for (int i = 0; i < 200; i++)
        {
            byte[] made = new byte[random.Next(1, 60_000)];
            random.NextBytes(made);
            int at = random.Next(made.Length);
            byte[] theirs = (i % 3) switch
            {
                0 => made[..at],
                1 => [.. made, 1, 2, 3],
                _ => [.. made],
            };
            int expected = (i % 3) switch { 0 => at, 1 => made.Length, _ => at };
            if (i % 3 == 2)
            {
                theirs[at] ^= (byte)(1 << random.Next(8));
            }

            File.WriteAllBytes(folder["file"], theirs);
            var compared = new ByteComparison(folder["file"]);
            using (compared)
            {
                for (int k = 0; k < made.Length;)
                {
                    int length = Math.Min(made.Length - k, random.Next(1, 20_000));
                    compared.Write(made, k, length);
                    k += length;
                }
            }

            Assert.That(compared.DifferenceAt, Is.EqualTo(expected), $"round {i}");
            Assert.That(compared.Line, Is.EqualTo(made.Take(expected).Count(b => b == '\n') + 1));
            Assert.That(compared.WindowBegin, Is.EqualTo(Math.Max(0, expected - 4096)));
            byte[] window = made[(int)compared.WindowBegin..Math.Min(made.Length, expected + 4096)];
            Assert.That(compared.Window.Take(window.Length), Is.EqualTo(window));
        }
    }

    [Test]
    public void Equal_bytes_do_not_differ()
    {
        using var folder = new TestFolder();
        byte[] bytes = new byte[100_000];
        new Random(4).NextBytes(bytes);
        File.WriteAllBytes(folder["file"], bytes);
        var compared = new ByteComparison(folder["file"]);
        using (compared)
        {
            compared.Write(bytes);
        }

        Assert.That(compared.DifferenceAt, Is.EqualTo(-1));
    }
}
