// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Links.Damage;

namespace SensorSim.Cli.Options;

/// <summary>How a stream is replayed.</summary>
/// <param name="Speed">Stream seconds in one second; null: as fast as the board takes them.</param>
/// <param name="StartS">Where it begins [s].</param>
/// <param name="DurationS">How much of it is sent [s]; null: to its end.</param>
/// <param name="IsRepeated">Whether it begins anew at its end.</param>
/// <param name="IsEndless">Whether a scenario goes on beyond its length.</param>
/// <param name="ExpectsExact">Whether the library's marks are demanded.</param>
/// <param name="DeadlineMs">When an answer is late [ms].</param>
/// <param name="ReplugS">How long a lost board is waited for [s]; 0: not at all.</param>
/// <param name="Damage">What is done to frames on purpose; null: nothing.</param>
internal sealed record ReplayChoice(
    double? Speed, double StartS, double? DurationS, bool IsRepeated, bool IsEndless, bool ExpectsExact, double DeadlineMs, double ReplugS, DamagePlan? Damage)
{
    /// <summary>Whether the stream has no end of its own.</summary>
    public bool HasNoEnd => IsRepeated || IsEndless;
}

/// <summary>The options that say how a stream is replayed.</summary>
internal sealed record ReplayOptions
{
    private const double LowestSpeed = 0.1;
    private const double HighestSpeed = 1000;
    private const double UsualDeadlineMs = 1000;
    private const double LongestS = 3e7;
    private const string BitExact = "bit-exact";

    private readonly Option<double?> _speed = NumberOption.Real("--speed", "Stream seconds sent in one second; 1 unless given", LowestSpeed, HighestSpeed);
    private readonly Option<bool> _asFast = new("--as-fast-as-possible") { Description = "Send as fast as the board takes it, not in real time" };
    private readonly Option<double?> _start = NumberOption.Real("--start-s", "Leave out the stream before this time [s]; all times count from there then", 0, LongestS);
    private readonly Option<double?> _duration = NumberOption.Real("--duration-s", "Send this much [s]; to the end of the stream unless given", 1, LongestS);
    private readonly Option<bool> _loop = new("--loop") { Description = "Begin anew at the end, until --duration-s or an interrupt" };
    private readonly Option<bool> _endless = new("--endless") { Description = "Scenario: go on beyond its length, until --duration-s or an interrupt" };
    private readonly Option<string?> _expect = new("--expect") { Description = "Demand on the answers: bit-exact, the library's own marks in every field", HelpName = "WHAT" };
    private readonly Option<double?> _deadline = NumberOption.Real("--deadline-ms", "An answer is late when it comes this long after its last sample was due [ms]; 1000 unless given", 1, 60_000);
    private readonly Option<double?> _replug = NumberOption.Real("--replug-wait-s", "Wait this long for a board that was unplugged [s]; not at all unless given", 0, 3600);
    private readonly Option<string?> _damage = new("--damage") { Description = "Damage frames on purpose, shares in per cent: drop=1,corrupt=1,duplicate=1,delay=1,reorder=1,stall=1", HelpName = "PLAN" };
    private readonly Option<long?> _damageSeed = NumberOption.Whole("--damage-seed", "Seed of the damage; 1 unless given", 0, 9007199254740991);

    /// <summary>Creates the options.</summary>
    public ReplayOptions() => _expect.AcceptOnlyFromAmong(BitExact);

    /// <summary>All of them, in the order of the help.</summary>
    public IReadOnlyList<Option> All =>
        [_speed, _asFast, _start, _duration, _loop, _endless, _expect, _deadline, _replug, _damage, _damageSeed];

    /// <summary>Reads the options.</summary>
    /// <param name="parsed">The command line.</param>
    /// <exception cref="UsageException">The options do not fit together.</exception>
    public ReplayChoice Read(ParseResult parsed)
    {
        bool isFast = parsed.GetValue(_asFast);
        if (isFast && parsed.GetValue(_speed) is not null)
        {
            throw new UsageException("--speed and --as-fast-as-possible contradict each other; leave out one of them");
        }

        if (isFast && parsed.GetValue(_deadline) is not null)
        {
            throw new UsageException("--deadline-ms counts from when a sample was due, which nothing is with --as-fast-as-possible; leave out one of them");
        }

        if (parsed.GetValue(_loop) && parsed.GetValue(_endless))
        {
            throw new UsageException("--loop begins the stream anew and --endless goes on with it; leave out one of them");
        }

        return new ReplayChoice(
            isFast ? null : parsed.GetValue(_speed) ?? 1,
            parsed.GetValue(_start) ?? 0,
            parsed.GetValue(_duration),
            parsed.GetValue(_loop),
            parsed.GetValue(_endless),
            parsed.GetValue(_expect) is not null,
            parsed.GetValue(_deadline) ?? UsualDeadlineMs,
            parsed.GetValue(_replug) ?? 0,
            Damage(parsed.GetValue(_damage), parsed.GetValue(_damageSeed)));
    }

    private static DamagePlan? Damage(string? text, long? seed)
    {
        if (text is null)
        {
            return seed is null ? null : throw new UsageException("--damage-seed is of no use without damage; add --damage, for example --damage drop=1");
        }

        try
        {
            return DamagePlan.Parse(text, (ulong)(seed ?? 1));
        }
        catch (FormatException e)
        {
            throw new UsageException($"--damage {text}: {e.Message}");
        }
    }
}
