// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Tests;

/// <summary>A folder for one test, removed with it, and helpers around text.</summary>
internal sealed class TestFolder : IDisposable
{
    public TestFolder() => Root = Directory.CreateTempSubdirectory("sensorsim-test-").FullName;

    public string Root { get; }

    public string this[string name] => Path.Combine(Root, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(this[name], text, new UTF8Encoding(false));
        return this[name];
    }

    public void Dispose() => Directory.Delete(Root, recursive: true);
}

internal static class Streams
{
    public static Stream Of(string text) => new MemoryStream(Encoding.UTF8.GetBytes(text));

    /// <summary>What a writer puts into a stream that it closes.</summary>
    public static string Written(Action<Stream> write)
    {
        var memory = new MemoryStream();
        write(memory);
        return Encoding.UTF8.GetString(memory.ToArray());
    }

    public static StreamFormat Format() => new(
    [
        new ChannelFormat { Name = ChannelName.Ecg, Device = "chest", RateHz = 250, Bits = 18, IsSigned = true, UnitPerCode = 0.1 / 3, DeclaredDelayNs = 12_345 },
        new ChannelFormat
        {
            Name = ChannelName.Infrared, Device = "finger_1", RateHz = 100, Bits = 19, IsSigned = false,
            UnitPerCode = 0.03125, ZeroCode = 7, Polarity = -1, DeclaredDelayNs = -3_000_000,
        },
    ]);
}
