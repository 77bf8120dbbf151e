// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Lines;

/// <summary>A link over two streams: the standard output and input of a process, or the two ends of a pipe.</summary>
/// <remarks>Two background threads serve it. When the other end hangs, <see cref="Dispose"/> closes the streams all the same.</remarks>
public sealed class StreamLink : ILink
{
    /// <summary>How long the other end may leave written bytes untaken before it counts as gone.</summary>
    public static readonly TimeSpan WriteLimit = TimeSpan.FromSeconds(3);

    private const int ChunkBytes = 4096;
    private static readonly TimeSpan CloseLimit = TimeSpan.FromSeconds(2);

    private readonly Stream _input;
    private readonly Stream _output;
    private readonly StreamPump _pump;
    private int _isClosed;

    /// <summary>Takes two streams; the link owns them from here on.</summary>
    /// <param name="input">Where bytes come from: for a process, its standard output.</param>
    /// <param name="output">Where bytes go: for a process, its standard input.</param>
    /// <param name="name">What it is, for people: <c>process python3</c>.</param>
    public StreamLink(Stream input, Stream output, string name)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentException.ThrowIfNullOrEmpty(name);
        _input = input;
        _output = output;
        Name = name;
        _pump = new StreamPump(input, output, name, ChunkBytes, true);
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public long? BytesPerSecond => null;

    /// <inheritdoc/>
    public int Read(Span<byte> buffer, TimeSpan atMost) => _pump.Read(buffer, atMost);

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes) => _pump.Write(bytes, WriteLimit);

    /// <summary>Closes both streams; takes two seconds at most.</summary>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _isClosed, 1) != 0)
        {
            return;
        }

        _pump.End($"The {Name} was closed.");
        SlowClose.Run(_pump.OutputInUse, _output.Dispose, CloseLimit / 2);

        // Closing a stream that a thread is reading from waits, on some systems, until something comes.
        SlowClose.Run(new object(), _input.Dispose, CloseLimit / 2);
    }
}
