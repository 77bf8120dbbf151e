// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>Feeds a trend with spot readings and keeps what it tells.</summary>
internal sealed class TrendRun(TrendSettings settings)
{
    private readonly CommonClock _clock = new(1000);
    private PressureTrend _trend;

    public PressureTrend Trend => _trend;

    /// <summary>The first change told: the day on which it was, and the reading.</summary>
    public (int Day, Reading Reading, int BeganDay)? First { get; private set; }

    public int Told { get; private set; }

    public void Spot(int day, double hour, double mmHg, double bpm = 0, byte quality = 200)
    {
        long time = (day * 86_400L) + (long)(hour * 3600);
        var spot = new Reading(ReadingKind.Systolic, (int)Math.Round(mmHg * 1000), quality, time * 256_000, 0);
        Reading rate = bpm == 0 ? default : new Reading(ReadingKind.HeartRateEcg, (int)(bpm * 1000), 200, time * 256_000, 0);
        if (_trend.Add(settings, _clock, spot, rate, time, out Reading told))
        {
            Told++;
            First ??= (day, told, _trend.BeganDay);
        }
        else
        {
            Assert.That(told, Is.EqualTo(default(Reading)));
        }
    }
}
