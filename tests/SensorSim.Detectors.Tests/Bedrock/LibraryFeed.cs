// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detectors.Tests.Bedrock;

/// <summary>Made-up samples of all eight roles, fed to the library itself: any cut, gaps, any code.</summary>
internal sealed class LibraryFeed
{
    public const int Roles = LibrarySetup.ChannelSetups.Length;

    private readonly int[][] _codes = new int[Roles][];
    private readonly ushort[][] _status = new ushort[Roles][];
    private readonly bool[][] _isLost = new bool[Roles][];
    private readonly Answer[] _room = new Answer[AnswerList.Most];

    public LibraryFeed(double durationS, int ecgHz = 250, int lightHz = 100, int accelHz = 50)
    {
        int[] rates = [ecgHz, lightHz, lightHz, lightHz, lightHz, accelHz, accelHz, accelHz];
        long ticksPerSecond = rates.Aggregate(1L, (a, b) => a * b / (long)System.Numerics.BigInteger.GreatestCommonDivisor(a, b));
        Setup = new LibrarySetup { Clock = new CommonClock(ticksPerSecond) };
        EndTick = (long)(durationS * ticksPerSecond);
        for (int role = 0; role < Roles; role++)
        {
            Setup.Channels[role] = new ChannelSetup
            {
                RateHz = rates[role],
                TicksPerSample = (int)(ticksPerSecond / rates[role]),
                Polarity = 1,
                ZeroCode = role is > 0 and < 5 ? -20_000 : 0,
                CodesPerUnit256 = role == 0 ? 1000 * 256 : 4096 * 256,
                Delay256 = role * 10,
            };
            int count = (int)(durationS * rates[role]);
            _codes[role] = new int[count];
            _status[role] = new ushort[count];
            _isLost[role] = new bool[count];
        }
    }

    public LibrarySetup Setup;

    public long EndTick { get; }

    public int[] Codes(ChannelRole role) => _codes[(int)role];

    public ushort[] Status(ChannelRole role) => _status[(int)role];

    public void Lose(ChannelRole role, int first, int count) => Array.Fill(_isLost[(int)role], true, first, count);

    /// <summary>A heart at 73 per minute, a wearer who walks in the middle third, a room that flickers.</summary>
    public static LibraryFeed Alive(double durationS, int seed)
    {
        var feed = new LibraryFeed(durationS);
        var random = new Random(seed);
        feed.Fill(ChannelRole.Ecg, t => (1000 * StreamMaker.Ecg(t)) + (20 * (random.NextDouble() - 0.5)));
        double Walk(double t, double phase) => t > durationS / 3 && t < 2 * durationS / 3 ? Math.Sin((2 * Math.PI * 1.7 * t) + phase) : 0;
        double Room(double t) => 300 * Math.Sin(2 * Math.PI * 0.9 * t);
        foreach ((ChannelRole role, double level, double height) in new[]
        {
            (ChannelRole.Red, 40_000.0, 300.0), (ChannelRole.Infrared, 50_000.0, 600.0), (ChannelRole.Green, 30_000.0, 500.0), (ChannelRole.Dark, -19_000.0, 0.0),
        })
        {
            feed.Fill(role, t => level + Room(t) - (height * StreamMaker.Pulse(t)) + (height * Walk(t, 0.4)) + (6 * (random.NextDouble() - 0.5)));
        }

        feed.Fill(ChannelRole.AccelX, t => 1500 * Walk(t, 0));
        feed.Fill(ChannelRole.AccelY, t => 700 * Walk(t, 1));
        feed.Fill(ChannelRole.AccelZ, t => 4096 + (900 * Walk(t, 2)));
        return feed;
    }

    /// <summary>The same with gaps, flagged stretches, pacing spikes and changes of settings in every channel.</summary>
    public static LibraryFeed Damaged(double durationS, int seed)
    {
        LibraryFeed feed = Alive(durationS, seed);
        var random = new Random(seed + 1);
        ushort[] flags = [SampleFlags.LeadOffPositive, SampleFlags.Saturated, SampleFlags.OverRange, SampleFlags.PacingSpike, SampleFlags.NoContact];
        for (int role = 0; role < Roles; role++)
        {
            int length = feed._codes[role].Length;
            for (int i = 0; i < durationS / 6; i++)
            {
                feed.Lose((ChannelRole)role, random.Next(length - 200), random.Next(1, 150));
                Array.Fill(feed._status[role], flags[random.Next(flags.Length)], random.Next(length - 200), random.Next(1, 60));
            }

            int change = random.Next(length / 2, length);
            for (int i = change; i < length && role is > 0 and < 4; i++)
            {
                feed._codes[role][i] += 9000;
                feed._status[role][i] |= 1 << SampleFlags.SettingsShift;
            }
        }

        return feed;
    }

    public void Fill(ChannelRole role, Func<double, double> value)
    {
        int[] codes = _codes[(int)role];
        for (int i = 0; i < codes.Length; i++)
        {
            codes[i] = (int)Math.Round(value((double)i / Setup[role].RateHz));
        }
    }

    public Library Started()
    {
        var library = new Library();
        Assert.That(library.Start(Setup, LibraryOptions.Default), Is.EqualTo(ChannelRole.None));
        return library;
    }

    /// <summary>Feeds the library from where it is up to a tick.</summary>
    /// <param name="library">The library.</param>
    /// <param name="untilTick">The tick.</param>
    /// <param name="nextLength">Ticks of the next cut.</param>
    /// <param name="answers">Gets the answers; null: nobody wants them.</param>
    public void Run(ref Library library, long untilTick, Func<long> nextLength, List<Answer>? answers)
    {
        NoProbe probe = default;
        var list = new AnswerList(_room);
        while (library.NowTick < untilTick)
        {
            long now = library.NowTick;
            long until = Math.Min(Math.Min(untilTick, library.SliceEndTick), now + nextLength());
            LibraryInput input = default;
            input.Ecg = Piece(ChannelRole.Ecg, now, ref until);
            input.Red = Piece(ChannelRole.Red, now, ref until);
            input.Infrared = Piece(ChannelRole.Infrared, now, ref until);
            input.Green = Piece(ChannelRole.Green, now, ref until);
            input.Dark = Piece(ChannelRole.Dark, now, ref until);
            input.AccelX = Piece(ChannelRole.AccelX, now, ref until);
            input.AccelY = Piece(ChannelRole.AccelY, now, ref until);
            input.AccelZ = Piece(ChannelRole.AccelZ, now, ref until);
            library.Take(input, until, ref list, ref probe);
            Keep(ref list, answers);
        }
    }

    /// <summary>Runs to the end and flushes.</summary>
    public List<Answer> RunAll(Func<long> nextLength)
    {
        Library library = Started();
        var answers = new List<Answer>();
        Run(ref library, EndTick, nextLength, answers);
        Flush(ref library, answers);
        return answers;
    }

    public void Flush(ref Library library, List<Answer> answers)
    {
        var list = new AnswerList(_room);
        library.Flush(ref list);
        Keep(ref list, answers);
    }

    private static void Keep(ref AnswerList list, List<Answer>? answers)
    {
        if (list.LostCount > 0)
        {
            Assert.Fail($"{list.LostCount} answers did not fit.");
        }

        for (int i = 0; i < list.Count && answers is not null; i++)
        {
            answers.Add(list[i]);
        }

        list.Clear();
    }

    // Samples that come without a gap, from the slice's first on; the slice ends where the next run begins.
    private ChannelPiece Piece(ChannelRole role, long now, scoped ref long until)
    {
        int step = Setup[role].TicksPerSample;
        bool[] isLost = _isLost[(int)role];
        int first = (int)((now + step - 1) / step);
        int end = (int)Math.Min(isLost.Length, (until + step - 1) / step);
        while (first < end && isLost[first])
        {
            first++;
        }

        int last = first;
        while (last < end && !isLost[last])
        {
            last++;
        }

        for (int next = last; next < end; next++)
        {
            if (!isLost[next])
            {
                until = Math.Min(until, (long)next * step);
                break;
            }
        }

        int count = Math.Max(0, last - first);
        return new ChannelPiece(_codes[(int)role].AsSpan(first, count), _status[(int)role].AsSpan(first, count), first);
    }
}
