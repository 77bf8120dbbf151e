// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing;

/// <summary>Samples that were made in one long stretch and are handed out in blocks that end where the reader likes.</summary>
internal sealed class MadeAhead
{
    private readonly StreamFormat _format;
    private readonly SampleBlock _made;
    private readonly Place[] _places;

    /// <summary>Creates an empty store.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="ticks">Longest stretch [ticks].</param>
    public MadeAhead(StreamFormat format, long ticks)
    {
        _format = format;
        _made = new SampleBlock(format, ticks);
        _places = new Place[format.Channels.Count];
    }

    /// <summary>First tick after the samples that are held.</summary>
    public long EndTick => _made.EndTick;

    /// <summary>Begins a new stretch; what was held must have been handed out.</summary>
    /// <param name="beginTick">First tick.</param>
    /// <param name="endTick">First tick after it.</param>
    /// <returns>Where its samples go.</returns>
    public SampleBlock Begin(long beginTick, long endTick)
    {
        _made.Begin(beginTick, endTick);
        Array.Clear(_places);
        return _made;
    }

    /// <summary>Hands out what lies before a tick and has not been handed out.</summary>
    /// <param name="block">Receives the samples.</param>
    /// <param name="untilTick">First tick after them, at most <see cref="EndTick"/>.</param>
    public void HandOut(SampleBlock block, long untilTick)
    {
        for (int c = 0; c < _places.Length; c++)
        {
            ChannelBlock made = _made.Channels[c];
            ReadOnlySpan<SampleRun> runs = made.Runs;
            long border = _format.FirstSampleAtOrAfter(c, untilTick);
            ref Place place = ref _places[c];
            while (place.Run < runs.Length)
            {
                SampleRun run = runs[place.Run];
                int end = (int)Math.Min(run.Count, border - run.FirstIndex);
                if (end <= place.Done)
                {
                    break;
                }

                int from = run.Offset + place.Done;
                int count = end - place.Done;
                block.Channels[c].Append(run.FirstIndex + place.Done, made.Codes.Slice(from, count), made.Status.Slice(from, count));
                place = end == run.Count ? new Place(place.Run + 1, 0) : place with { Done = end };
            }
        }
    }

    /// <summary>An independent copy.</summary>
    public MadeAhead Copy()
    {
        var copy = new MadeAhead(_format, _made.MaximumTicks);
        copy._made.Begin(_made.BeginTick, _made.EndTick);
        for (int c = 0; c < _places.Length; c++)
        {
            ChannelBlock made = _made.Channels[c];
            foreach (SampleRun run in made.Runs)
            {
                copy._made.Channels[c].Append(run.FirstIndex, made.Codes.Slice(run.Offset, run.Count), made.Status.Slice(run.Offset, run.Count));
            }
        }

        _places.CopyTo(copy._places, 0);
        return copy;
    }

    // The run that comes next, and how many of its samples are handed out.
    private readonly record struct Place(int Run, int Done);
}
