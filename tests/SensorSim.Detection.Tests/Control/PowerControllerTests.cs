// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;

namespace SensorSim.Detection.Tests.Control;

/// <summary>Rest, sleep, looks and waking by a made-up accelerometer of 10 Hz. Limits are choices of this project.</summary>
[TestFixture]
public sealed class PowerControllerTests
{
    private const int RateHz = 10;
    private const int Still = 30;
    private const int Moving = 45;

    private static readonly PowerSettings s_looks = new()
    {
        StillMg = Still, MovingMg = Moving, RestSeconds = 5, RestDecimation = 4, SleepSeconds = 20, SleepDecimation = 0, LookEverySeconds = 30, LookSeconds = 10,
    };

    [Test]
    public void Next_LongStill_RestsSleepsAndLooks() =>
        Assert.That(
            Requests(s_looks, 150, s => s < 10 || s >= 130 ? 100 : 10),
            Is.EqualTo(new[]
            {
                (15, 4), // still seconds 10 to 14
                (30, 0), // still seconds 10 to 29
                (60, 1), (70, 0), (100, 1), (110, 0), // thirty off, ten on
                (131, 1), // second 130 moved
            }));

    [Test]
    public void Next_MovementWithinALook_KeepsItOn() =>
        Assert.That(Requests(s_looks, 80, s => s == 62 ? 100 : 10), Is.EqualTo(new[] { (5, 4), (20, 0), (50, 1), (60, 0), (63, 1), (68, 4) }));

    // Between the limits: neither leads to rest, nor wakes.
    [Test]
    public void Next_BetweenTheLimits_NothingChanges()
    {
        Assert.That(Requests(s_looks, 300, _ => 40), Is.Empty);
        Assert.That(Requests(s_looks, 49, s => s < 30 ? 10 : 40), Is.EqualTo(new[] { (5, 4), (20, 0) }), "asleep it sleeps on");
        Assert.That(Requests(s_looks, 19, s => s < 8 ? 10 : 40), Is.EqualTo(new[] { (5, 4) }), "at rest it rests on, and counts no still second");
    }

    // Movement by chance about both limits, for an hour: sleep is always preceded by its still seconds, so it cannot come more often.
    [Test]
    public void Next_AnyMovement_KeepsTheTimesBetweenRequests()
    {
        for (int seed = 5000; seed < 5020; seed++)
        {
            var random = new Random(seed);
            double level = 0.05 + (0.9 * random.NextDouble());
            int[] spreads = [.. Enumerable.Range(0, 3600).Select(_ => (int)(-Still * Math.Log(1 - (level * random.NextDouble()))))];
            List<(int Second, int Decimation)> requests = Requests(s_looks with { LookEverySeconds = 0 }, 3600, s => spreads[s]);
            for (int i = 0; i < requests.Count; i++)
            {
                (int second, int decimation) = requests[i];
                if (decimation == 4)
                {
                    Assert.That(spreads[(second - 5)..second], Has.All.LessThanOrEqualTo(Still), $"seed {seed}, {second} s");
                }
                else if (decimation == 1)
                {
                    Assert.That(spreads[second - 1], Is.GreaterThan(Moving), $"seed {seed}, {second} s");
                }

                Assert.That(i == 0 || decimation != requests[i - 1].Decimation, Is.True, "no request for what holds");
            }

            Assert.That(requests, Has.Count.LessThanOrEqualTo(1 + (2 * 3600 / 6)), "a rest and a waking take six seconds at least");
        }
    }

    [Test]
    public void PassTime_SilentAccelerometer_WakesTheLight()
    {
        PowerController power = Started(0b111);
        Feed(ref power, s_looks, 0, 30, _ => 10, []);
        Assert.That(power.IsAsleep, Is.True);
        Assert.That(power.PassTime(s_looks, 33), Is.False, "a packet may be late");
        Assert.That(power.PassTime(s_looks, 34), Is.True);
        Assert.That(power.Request, Is.EqualTo(new ControlRequest(ControlRole.AllLight, ControlSetting.Decimation, 1000)));
        Assert.That(power.IsAsleep, Is.False);
    }

    [Test]
    public void Next_AnAxisWithoutSamples_IsNotStill()
    {
        PowerController power = Started(0b111);
        var requests = new List<(int, int)>();
        for (int i = 0; i < 60 * RateHz; i++)
        {
            for (int axis = 0; axis < (i / RateHz % 4 == 3 ? 2 : 3); axis++)
            {
                if (power.Next(s_looks, axis, 0, i))
                {
                    requests.Add((i / RateHz, power.Request.ValueMilli / 1000));
                }
            }
        }

        Assert.That(requests, Is.Empty, "every fourth second lacks an axis: five still ones in a row never come");
    }

    [Test]
    public void Next_OneAxisOnly_IsEnough()
    {
        PowerController power = Started(0b010);
        var requests = new List<(int, int)>();
        Feed(ref power, s_looks, 0, 31, _ => 10, requests);
        Assert.That(requests, Is.EqualTo(new[] { (5, 4), (20, 0) }));
    }

    [Test]
    public void Next_Gap_IsNotStill() => Assert.That(
        Requests(s_looks, 30, s => 10, s => s is 17 or 18), Is.EqualTo(new[] { (5, 4), (19, 1), (24, 4) }), "seconds without samples move");

    private static PowerController Started(int axes)
    {
        PowerController power = default;
        power.Start(RateHz, axes, Still, Moving);
        return power;
    }

    private static List<(int Second, int Decimation)> Requests(PowerSettings settings, int seconds, Func<int, int> spread, Func<int, bool>? isLost = null)
    {
        PowerController power = Started(0b111);
        var requests = new List<(int, int)>();
        Feed(ref power, settings, 0, seconds, spread, requests, isLost);
        return requests;
    }

    private static void Feed(
        ref PowerController power, PowerSettings settings, int from, int seconds, Func<int, int> spread, List<(int, int)> requests, Func<int, bool>? isLost = null)
    {
        for (int i = from * RateHz; i <= seconds * RateHz; i++)
        {
            int second = Math.Min(i / RateHz, seconds - 1);
            for (int axis = 0; axis < 3; axis++)
            {
                int code = 8000 + (axis == 1 ? spread(second) * (i % 2) : 0);
                if (isLost?.Invoke(second) != true && power.Next(settings, axis, code, i))
                {
                    Assert.That(power.Request.Role, Is.EqualTo(ControlRole.AllLight));
                    requests.Add((i / RateHz, power.Request.ValueMilli / 1000));
                }
            }
        }
    }
}
