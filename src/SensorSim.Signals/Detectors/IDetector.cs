// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Detectors;

/// <summary>The one contract behind which every detector under test stands.</summary>
/// <remarks>
/// Calls come in the order <see cref="Start"/>, any number of <see cref="Process"/>, <see cref="Flush"/>. Samples are consumed in
/// (tick, channel number) order. How a stream is cut into blocks must not change the answers.
/// </remarks>
public interface IDetector : IDisposable
{
    /// <summary>Name and version, for reports; for example <c>sensorsim 0.1</c>.</summary>
    string Name { get; }

    /// <summary>Prepares for a stream; drops all state.</summary>
    /// <param name="format">Channels and clock of the stream to come.</param>
    /// <exception cref="NotSupportedException">The detector cannot work on such a stream; the message says what it needs.</exception>
    void Start(StreamFormat format);

    /// <summary>Consumes the next block.</summary>
    /// <param name="block">Samples; valid only during the call.</param>
    /// <param name="output">Takes the answers.</param>
    void Process(SampleBlock block, DetectorOutput output);

    /// <summary>The stream has ended: gives what was held back.</summary>
    /// <param name="output">Takes the answers.</param>
    void Flush(DetectorOutput output);
}
