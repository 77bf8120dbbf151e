// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>Samples between who makes or sends them, in stretches of its own, and a reader whose blocks end where it likes.</summary>
/// <remarks>Nothing is allocated once a channel has held as many gaps as it ever will.</remarks>
public sealed class HeldSamples
{
    private readonly StreamFormat _format;
    private readonly Place[] _places;

    /// <summary>Creates an empty store.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="ticks">Longest stretch [ticks], at least 1.</param>
    public HeldSamples(StreamFormat format, long ticks)
    {
        Samples = new SampleBlock(format, ticks);
        _format = format;
        _places = new Place[format.Channels.Count];
    }

    /// <summary>What came since <see cref="Begin"/>, handed out or not; more may be appended.</summary>
    public SampleBlock Samples { get; }

    /// <summary>Forgets all that is held and begins another stretch.</summary>
    /// <param name="beginTick">First tick.</param>
    /// <param name="endTick">First tick after it.</param>
    /// <returns>Where its samples go.</returns>
    public SampleBlock Begin(long beginTick, long endTick)
    {
        Samples.Begin(beginTick, endTick);
        Array.Clear(_places);
        return Samples;
    }

    /// <summary>Hands out what lies before a tick and has not been handed out.</summary>
    /// <param name="block">Receives the samples, behind those that it holds.</param>
    /// <param name="untilTick">First tick after them.</param>
    public void HandOut(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        HandOut(block, untilTick, _places);
    }

    /// <summary>An independent copy, with what has not been handed out.</summary>
    public HeldSamples Copy()
    {
        var copy = new HeldSamples(_format, Samples.MaximumTicks);
        HandOut(copy.Begin(Samples.BeginTick, Samples.EndTick), Samples.EndTick, [.. _places]);
        return copy;
    }

    private void HandOut(SampleBlock block, long untilTick, Place[] places)
    {
        for (int c = 0; c < places.Length; c++)
        {
            ChannelBlock held = Samples.Channels[c];
            ReadOnlySpan<SampleRun> runs = held.Runs;
            long border = _format.FirstSampleAtOrAfter(c, untilTick);
            ref Place place = ref places[c];
            while (place.Run < runs.Length)
            {
                SampleRun run = runs[place.Run];
                int end = (int)Math.Min(run.Count, border - run.FirstIndex);
                if (end > place.Done)
                {
                    int from = run.Offset + place.Done;
                    int count = end - place.Done;
                    block.Channels[c].Append(run.FirstIndex + place.Done, held.Codes.Slice(from, count), held.Status.Slice(from, count));
                    place.Done = end;
                }

                // The last run may grow yet.
                if (place.Done < run.Count || place.Run + 1 == runs.Length)
                {
                    break;
                }

                place = new Place { Run = place.Run + 1 };
            }
        }
    }

    // The run that comes next, and how many of its samples are handed out.
    private struct Place
    {
        public int Run;
        public int Done;
    }
}
