// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Reads the truth that stands in the annotations of one of our own files, back in body time.</summary>
/// <remarks>
/// To the nanosecond where the device's clock is true; else its offset and drift are taken off, to 1 ns. What found no room in the
/// annotations is in <c>truth.csv</c> only.
/// </remarks>
public sealed class EdfTruthReader : IDisposable
{
    private readonly EdfAnnotationReader _annotations;
    private readonly ChannelClock[] _clocks = new ChannelClock[Enum.GetValues<ChannelName>().Length];
    private readonly long[] _delays = new long[Enum.GetValues<ChannelName>().Length];

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or it is not what it should be.</exception>
    public EdfTruthReader(string path)
    {
        _annotations = new EdfAnnotationReader(path);
        foreach (EdfMapped mapped in EdfSignalMap.Own(_annotations.Header) ?? [])
        {
            _delays[(int)mapped.Channel.Name] = mapped.Channel.DeclaredDelayNs;
        }
    }

    /// <summary>Reads the next row.</summary>
    /// <param name="truth">Receives it.</param>
    /// <returns>False when there is none any more.</returns>
    /// <exception cref="InputFileException">The annotations of a record are not what they should be.</exception>
    public bool TryRead(out TruthEvent truth)
    {
        while (_annotations.TryReadNote(out EdfNote note))
        {
            if (EdfTexts.TryClock(note.Text, out ChannelClock clock))
            {
                _clocks[(int)clock.Channel] = clock;
            }
            else if (EdfTexts.TryTruth(note.Text, note.OnsetNs, out truth))
            {
                int channel = (int)truth.Channel;
                truth = truth with { TimeNs = BodyNs(note.OnsetNs - _delays[channel], _clocks[channel]) };
                return true;
            }
        }

        truth = default;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose() => _annotations.Dispose();

    // Undoes what the clock adds; the drift is that of the body's time, so it takes a second round.
    private static long BodyNs(long deviceNs, in ChannelClock clock)
    {
        long body = deviceNs - clock.OffsetNs;
        for (int round = 0; round < 4; round++)
        {
            body = deviceNs - clock.LateNs(body);
        }

        return body;
    }
}
