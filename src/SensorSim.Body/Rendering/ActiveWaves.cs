// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Rendering;

/// <summary>The waves of all beats that touch the present stretch of a grid, drawn in order of beat and wave.</summary>
/// <remarks>
/// Each wave's recurrence starts at the wave's own first sample, and for every sample waves are summed in the same order, so no cut of
/// the stream changes a bit.
/// </remarks>
/// <typeparam name="TWave">Kind of wave.</typeparam>
internal sealed class ActiveWaves<TWave>
    where TWave : struct, IActiveWave<TWave>
{
    private const int Capacity = 256;

    // What a resting heart needs; who needs more gets it by doubling.
    private const int FirstRoom = 64;

    // Longest stretch drawn at once [s]: at the shortest RR interval its waves still fit the list of active ones.
    private const double PieceSeconds = 4;

    private readonly BodyModel _body;
    private readonly SampleGrid _grid;
    private readonly int _variant;
    private readonly int _piece;

    // One more than may be active: the next wave starts in its place, and is left there when it has no sample.
    private TWave[] _active = new TWave[FirstRoom + 1];

    // Places of the active waves in order of beat and wave, then the free ones: waves are large, and stay where they are.
    private int[] _places = new int[FirstRoom + 1];
    private int _count;
    private long _nextBeat;

    public ActiveWaves(BodyModel body, SampleGrid grid, int variant)
    {
        ArgumentNullException.ThrowIfNull(body);
        _body = body;
        _grid = grid;
        _variant = variant;
        _piece = (int)Math.Max(1, Math.Min(1 << 20, Math.Floor(PieceSeconds / grid.StepSeconds)));
        _nextBeat = BodyModel.FirstBeatId;
        NumberPlaces(0);
    }

    private ActiveWaves(ActiveWaves<TWave> other, BodyModel body)
        : this(body, other._grid, other._variant)
    {
        _count = other._count;
        _nextBeat = other._nextBeat;
        _active = (TWave[])other._active.Clone();
        _places = (int[])other._places.Clone();
    }

    /// <summary>Adds every wave to consecutive samples; reads forward only.</summary>
    public void Add(Span<double> buffer, long firstIndex)
    {
        for (int done = 0; done < buffer.Length; done += _piece)
        {
            AddPiece(buffer.Slice(done, Math.Min(_piece, buffer.Length - done)), firstIndex + done);
        }
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    public ActiveWaves<TWave> Copy(BodyModel body) => new(this, body);

    private void AddPiece(Span<double> buffer, long firstIndex)
    {
        long end = firstIndex + buffer.Length;
        Activate(_grid.Seconds(end) + BodyModel.LeadSeconds, firstIndex);
        ReadOnlySpan<int> places = _places.AsSpan(0, _count);
        ref TWave waves = ref MemoryMarshal.GetArrayDataReference(_active);
        foreach (int place in places)
        {
            ref TWave wave = ref Unsafe.Add(ref waves, place);
            long next = wave.Next;
            long stop = Math.Min(wave.Last + 1, end);
            if (next < stop)
            {
                wave.Draw(buffer.Slice((int)(next - firstIndex), (int)(stop - next)));
            }
        }
    }

    // A wave that is over changes turns with the next that is not, and so ends up among the free ones. Until a beat comes it does no harm.
    private void DropOver()
    {
        Span<int> places = _places.AsSpan(0, _count);
        ref TWave waves = ref MemoryMarshal.GetArrayDataReference(_active);
        int kept = 0;
        foreach (ref int place in places)
        {
            int here = place;
            ref TWave wave = ref Unsafe.Add(ref waves, here);
            if (wave.Next <= wave.Last)
            {
                place = places[kept];
                places[kept++] = here;
            }
        }

        _count = kept;
    }

    private void Activate(double untilSeconds, long firstIndex)
    {
        if (_body.HasBeat(_nextBeat, untilSeconds))
        {
            DropOver();
        }

        while (_body.HasBeat(_nextBeat, untilSeconds))
        {
            ref readonly BeatView beat = ref _body.Beat(_nextBeat);
            for (int i = 0; i < TWave.PerBeat; i++)
            {
                ref TWave wave = ref _active[_places[_count]];
                if (TWave.TryStart(beat, i, _variant, _grid, out wave) && wave.Last >= firstIndex)
                {
                    // Moves only waves that began before the first sample ever asked for.
                    wave.SkipTo(firstIndex);
                    if (++_count == _places.Length)
                    {
                        Grow();
                    }
                }
            }

            _nextBeat++;
        }
    }

    // Waves and places stay; the new ones are free.
    private void Grow()
    {
        int known = _places.Length;
        int room = Math.Min(Capacity, 2 * (known - 1));
        if (room < known)
        {
            throw new InvalidOperationException($"More than {Capacity} waves are active at once.");
        }

        Array.Resize(ref _active, room + 1);
        Array.Resize(ref _places, room + 1);
        NumberPlaces(known);
    }

    private void NumberPlaces(int from)
    {
        for (int i = from; i < _places.Length; i++)
        {
            _places[i] = i;
        }
    }
}
