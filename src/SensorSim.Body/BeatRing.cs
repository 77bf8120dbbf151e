// SPDX-License-Identifier: MIT
namespace SensorSim.Body;

/// <summary>The latest <see cref="BodyModel.RingBeats"/> events of the heart, by number.</summary>
/// <remarks>
/// In pieces, each made when it is first asked for: a run of a minute needs two. All in one would lie among the large objects, whose garbage
/// makes every collection of a study of many short runs a full one.
/// </remarks>
internal sealed class BeatRing
{
    private const int PieceBeats = 64;
    private const int Pieces = BodyModel.RingBeats / PieceBeats;
    private readonly BeatView[]?[] _pieces = new BeatView[Pieces][];

    /// <summary>Creates a ring with its first piece.</summary>
    public BeatRing() => _pieces[0] = new BeatView[PieceBeats];

    private BeatRing(BeatRing other)
    {
        for (int i = 0; i < Pieces; i++)
        {
            _pieces[i] = (BeatView[]?)other._pieces[i]?.Clone();
        }
    }

    /// <summary>The place of an event; as long as that is not laid, it holds an older one or none.</summary>
    /// <param name="id">Number of the event, at least 0.</param>
    public ref BeatView this[long id]
    {
        get
        {
            uint place = (uint)id & (BodyModel.RingBeats - 1);
            BeatView[] piece = _pieces[place / PieceBeats] ??= new BeatView[PieceBeats];
            return ref piece[place % PieceBeats];
        }
    }

    /// <summary>An independent copy.</summary>
    public BeatRing Copy() => new(this);
}
