// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>From acceleration to the reference of the cancellers, the level of movement and the cadence.</summary>
internal partial struct MovementPath
{
    public MovementReference Reference;
    private MovementLevel _level;
    private CadenceTracker _cadence;
    private int _step;

    /// <summary>Whether the stream has what it takes: three axes of one rate and one weight of the codes.</summary>
    public bool IsThere { get; private set; }

    /// <summary>Level of movement [mg].</summary>
    public readonly int LevelMg => _level.LevelMg;

    /// <summary>Whether that is movement.</summary>
    public readonly bool IsMoving => _level.IsMoving;

    public void Start(in LibrarySetup setup)
    {
        ChannelSetup x = setup[ChannelRole.AccelX];
        ChannelSetup y = setup[ChannelRole.AccelY];
        ChannelSetup z = setup[ChannelRole.AccelZ];
        int codesPerG = Shift.Floor(x.CodesPerUnit256, 8);
        _step = x.TicksPerSample;
        bool isAlike = x.RateHz == y.RateHz && x.RateHz == z.RateHz && x.CodesPerUnit256 == y.CodesPerUnit256 && x.CodesPerUnit256 == z.CodesPerUnit256;
        IsThere = x.IsThere && isAlike
            && Reference.Start(x.RateHz, codesPerG) && _level.Start(x.RateHz, codesPerG) && _cadence.Start(x.RateHz, codesPerG);
    }

    /// <summary>A slice begins.</summary>
    public readonly void Begin(ref Beside beside) => beside.XDue = IsThere ? Beside.DueOf(beside.X, 0, _step) : long.MaxValue;

    /// <summary>Takes what comes up to and with a tick.</summary>
    public void Take<TProbe>(ref Beside beside, long tick, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        while (beside.XDue <= tick)
        {
            long index = beside.X.FirstIndex + beside.XAt;
            int x = beside.X.Codes[beside.XAt++];
            beside.XDue = Beside.DueOf(beside.X, beside.XAt, _step);
            if (!Beside.TryGet(beside.Y, index, out int y) || !Beside.TryGet(beside.Z, index, out int z))
            {
                continue;
            }

            Reference.Next(x, y, z);
            TakeLevelAndCadence(x, y, z, index, ref found, ref probe);
        }
    }

    // Level and cadence, which the light does not wait for.
    private void TakeLevelAndCadence<TProbe>(int x, int y, int z, long index, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        probe.At((int)ChannelRole.AccelX, index);
        _level.Next(x, y, z, ref probe);
        if (_cadence.Next(x, y, z))
        {
            found.Add(new Found
            {
                Tick = index * _step,
                Kind = FoundKind.Cadence,
                RateMilli = _cadence.CadenceMilliPerMin,
                Quality = _cadence.Quality,
                IsTrusted = _level.IsMoving,
            });
        }
    }
}
