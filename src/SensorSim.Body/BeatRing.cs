// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body;

/// <summary>The latest <see cref="BodyModel.RingBeats"/> events of the heart, by number.</summary>
/// <remarks>
/// In pieces: all in one would lie among the large objects, whose garbage makes every collection of a study of many short runs a full one.
/// All are there from the start, so that nothing is allocated on the way.
/// </remarks>
internal sealed class BeatRing
{
    private const int PieceBeats = 64;
    private const int Pieces = BodyModel.RingBeats / PieceBeats;
    private readonly BeatView[][] _pieces = new BeatView[Pieces][];

    /// <summary>Creates an empty ring.</summary>
    public BeatRing()
    {
        for (int i = 0; i < Pieces; i++)
        {
            _pieces[i] = new BeatView[PieceBeats];
        }
    }

    private BeatRing(BeatRing other)
    {
        for (int i = 0; i < Pieces; i++)
        {
            _pieces[i] = (BeatView[])other._pieces[i].Clone();
        }
    }

    /// <summary>The place of an event; as long as that is not laid, it holds an older one or none.</summary>
    /// <param name="id">Number of the event, at least 0.</param>
    public ref BeatView this[long id]
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get
        {
            uint place = (uint)id & (BodyModel.RingBeats - 1);
            return ref _pieces[place / PieceBeats][place % PieceBeats];
        }
    }

    /// <summary>An independent copy.</summary>
    public BeatRing Copy() => new(this);
}
