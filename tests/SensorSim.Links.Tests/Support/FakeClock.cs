// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Tests.Support;

/// <summary>A clock that stands still until it is moved; each look moves it a little, so that whoever spins gets on.</summary>
internal sealed class FakeClock : TimeProvider
{
    private long _ticks;

    /// <summary>What each look adds [100 ns].</summary>
    public long PerLook { get; set; }

    /// <summary>The time [ms].</summary>
    public double NowMs => _ticks / 1e4;

    public override long TimestampFrequency => 10_000_000;

    public override long GetTimestamp() => _ticks += PerLook;

    public void Move(double ms) => _ticks += (long)Math.Round(ms * 1e4);
}
