// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Snippets;

/// <summary>Places where C and C# part, one a method: this file is compiled into the tests, and translated and compiled by gcc; both must give the same.</summary>
/// <remarks>Every method takes three numbers of any size. What may overflow stands in unchecked, as in the library.</remarks>
public static class Snippet
{
    /// <summary>An unsigned and a signed word make a signed one of 64 bits in C#, an unsigned one of 32 in C.</summary>
    public static long UnsignedAndSigned(int a, int b, long c) => (uint)a + (b >> 1) + (c >> 40);

    /// <summary>Compared as 64 bits.</summary>
    public static long UnsignedBelowSigned(int a, int b, long c) => (uint)a < b || (uint)b > c ? 1 : 0;

    /// <summary>Bytes are computed with as ints.</summary>
    public static long Bytes(int a, int b, long c)
    {
        byte x = unchecked((byte)a);
        byte y = unchecked((byte)b);
        sbyte z = unchecked((sbyte)c);
        return (x + y) - (~x) + (z * 3) - (y << 5) + (z >> 1);
    }

    /// <summary>Casts that lose bits.</summary>
    public static long Casts(int a, int b, long c) =>
        unchecked((byte)a + (sbyte)b + (short)c + (ushort)a + (long)(uint)b + (int)c + (long)(uint)(c >> 3) + (short)(a >> 7));

    /// <summary>Shift counts count modulo 32 or 64; the sign comes in from the left.</summary>
    public static long Shifts(int a, int b, long c) =>
        unchecked((a << b) + (a >> b) + ((long)(uint)(a >>> b)) + (c >> b) + (c << (b + 40)) + (c >>> b) + (long)((uint)a >> b) + (long)((ulong)c << b) + (a << 3) + (a >> 31));

    /// <summary>The bits of a shift that leave a narrow word do not come back.</summary>
    public static long NarrowCompound(int a, int b, long c)
    {
        byte x = unchecked((byte)a);
        short y = unchecked((short)b);
        ushort z = unchecked((ushort)c);
        unchecked
        {
            x += (byte)b;
            x <<= 3;
            y -= (short)a;
            y >>= 2;
            z |= (ushort)a;
            z ^= (ushort)(b >> 4);
            z *= 3;
        }

        return x + (y * 65_537L) + z;
    }

    /// <summary>What wraps on purpose.</summary>
    public static long Wrapping(int a, int b, long c) =>
        unchecked((a + b) + ((long)(a - b) * 3) + (a * b) + (c * a) - (c + c) + (-a) + (c - a));

    /// <summary>Unsigned words wrap by themselves.</summary>
    public static long UnsignedMask(int a, int b, long c)
    {
        uint fits = unchecked((uint)a) >= unchecked((uint)b) ? 1u : 0u;
        uint rest = unchecked((uint)a - ((uint)b & (0u - fits)));
        return rest + (long)(unchecked((ulong)c) >> 63);
    }

    /// <summary>Left before right: the first call changes what the second one reads.</summary>
    public static long OrderOfCalls(int a, int b, long c)
    {
        Counter counter = default;
        counter.Start(a & 1023);
        long one = (counter.Next(b & 15) * 1000) + counter.Next(3) - (counter.Value * 7);
        long two = counter.Value + counter.Next(5) + counter.Value;
        return one + two + (c >> 60);
    }

    /// <summary>An increment inside of an expression, and in an index.</summary>
    public static long Increments(int a, int b, long c)
    {
        Eight held = default;
        int at = a & 3;
        held[at++] = at + 5;
        held[at++] = at + held[at - 1];
        int x = b & 255;
        int y = x++ + x + ++x;
        held[x++ & 7] += b & 3;
        return y + at + held[a & 7] + held[3] + (c >> 61);
    }

    /// <summary>The right side only when the left one asks for it.</summary>
    public static long ShortCuts(int a, int b, long c)
    {
        Counter counter = default;
        bool isBoth = a > b && counter.Next(1) > 0 && counter.Take(b & 7, out int got) && got > 3;
        bool isOne = c > 0 || (counter.Next(2) == 3 && counter.Value++ > 0);
        bool isAll = isBoth | (counter.Next(4) > 5);
        isAll &= counter.Next(8) > 0;
        int chosen = isOne ? counter.Next(16) : counter.Value + 1;
        return counter.Value + (isBoth ? 1000 : 0) + (isOne ? 2000 : 0) + (isAll ? 4000 : 0) + (chosen * 10_000L);
    }

    /// <summary>Conditions of loops that change something.</summary>
    public static long Loops(int a, int b, long c)
    {
        Counter counter = default;
        int sum = 0;
        while (counter.Take(a & 15, out int got))
        {
            if (got == 2)
            {
                continue;
            }

            sum += got;
        }

        int left = b & 31;
        do
        {
            sum += left--;
        }
        while (left > 0 && sum < 400);

        for (int i = 0, k = 64; i < 5 || k > 8; i++, k >>= 1)
        {
            sum += i ^ k;
            if (sum > 600)
            {
                break;
            }
        }

        Eight filled = Filled(a);
        foreach (int value in ((ReadOnlySpan<int>)filled).Slice(2, 4))
        {
            sum += value;
        }

        return sum + (c >> 62);
    }

    /// <summary>Patterns and switches.</summary>
    public static long Patterns(int a, int b, long c)
    {
        int kind = (a & 7) switch
        {
            0 => 10,
            1 or 2 => 20,
            >= 5 and <= 6 => 30,
            _ => 40,
        };
        bool isSpecial = (b & 15) is 3 or > 9 and not 12;
        switch ((Colour)(byte)(c & 3))
        {
            case Colour.Red:
            case Colour.Green:
                kind++;
                break;
            case Colour.Blue:
                kind += 2;
                break;
            default:
                kind += 3;
                break;
        }

        return kind + (isSpecial ? 100 : 0);
    }

    /// <summary>Values made, changed, given by name and by default.</summary>
    public static long Objects(int a, int b, long c)
    {
        var pair = new Pair(unchecked((short)a), unchecked((byte)b));
        Pair other = pair with { Second = 9 };
        var made = new Counter { Value = a & 63 };
        made.Add(by: b & 3);
        made.Add();
        Counter copy = made;
        copy.Add(100);
        Eight held = Filled(b);
        Eight kept = held;
        held[1] = 77;
        (held[2], held[3]) = (held[3], held[2]);
        return pair.Sum + other.Sum + (made.Value * 3) + copy.Value + kept[1] + held[1] + (held[2] * 5) - held[3] + (c >> 59) + new Line(a & 7).Twice;
    }

    /// <summary>Parts through references.</summary>
    public static long References(int a, int b, long c)
    {
        Eight held = Filled(a);
        ref int slot = ref held[b & 7];
        slot += 4;
        slot = slot * 2;
        Double(ref held, b & 3, out int before);
        ref readonly Eight seen = ref held;
        return before + seen[b & 7] + Sum(held) + Sum(((ReadOnlySpan<int>)held)[..(b & 7)]) + (c >> 58);
    }

    /// <summary>Numbers of their own kind.</summary>
    public static long Constants(int a, int b, long c)
    {
        const long Big = 3_000_000_000;
        return unchecked(Least + Big + (a & 0xFF00) + (b & ~0xF) + (int.MaxValue - Table[a & 7]) + (Most >> 8) + (long)Colour.Blue + (c & long.MinValue));
    }

    /// <summary>Zeros and ones.</summary>
    public static long Bits(int a, int b, long c) => BitOperations.LeadingZeroCount(unchecked((uint)a)) + (BitOperations.LeadingZeroCount(unchecked((ulong)c)) * 100)
        + (BitOperations.PopCount(unchecked((uint)b)) * 10_000);

    /// <summary>Division and rest round to zero.</summary>
    public static long Divisions(int a, int b, long c)
    {
        int by = (b & 1023) + 1;
        return (a / by) + (a % by) + (c / -by) + (c % by) + (unchecked((uint)a) / (uint)by) + (long)(unchecked((ulong)c) % (uint)by);
    }

    private const int Least = -40_000;
    private const uint Most = 0xFFFF_FFF0;

    private static ReadOnlySpan<short> Table => [1, -2, 300, -400, 5000, -6000, 32_767, -32_768];

    private static Eight Filled(int from)
    {
        Eight held = default;
        for (int i = 0; i < Eight.Length; i++)
        {
            held[i] = (from & 1023) + (i * i);
        }

        return held;
    }

    private static void Double(ref Eight held, int at, out int before)
    {
        before = held[at];
        held[at] = before * 2;
    }

    private static int Sum(in Eight held)
    {
        int sum = 0;
        for (int i = 0; i < Eight.Length; i++)
        {
            sum += held[i];
        }

        return sum;
    }

    private static int Sum(ReadOnlySpan<int> values)
    {
        int sum = values.IsEmpty ? -1 : 0;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i];
        }

        return sum;
    }
}

/// <summary>Eight words.</summary>
[InlineArray(Length)]
public struct Eight
{
    /// <summary>Words held.</summary>
    public const int Length = 8;
    private int _first;
}

/// <summary>An enumeration.</summary>
public enum Colour : byte
{
    /// <summary>The first.</summary>
    Red,

    /// <summary>The second.</summary>
    Green = 2,

    /// <summary>The third.</summary>
    Blue = 3,
}

/// <summary>A record with two parts and a sum.</summary>
public readonly record struct Pair(short First, byte Second = 4)
{
    /// <summary>Both.</summary>
    public int Sum => First + Second;
}

/// <summary>Something made from what stands in its head.</summary>
public readonly struct Line(int length)
{
    private readonly int _length = length + 1;

    /// <summary>Twice its length.</summary>
    public int Twice => 2 * _length;
}

/// <summary>Something that changes when it is asked.</summary>
public struct Counter
{
    private int _taken;

    /// <summary>Where it stands.</summary>
    public int Value { get; set; }

    /// <summary>Begins.</summary>
    public void Start(int value)
    {
        this = default;
        Value = value;
    }

    /// <summary>Adds.</summary>
    public void Add(int by = 1) => Value += by;

    /// <summary>Goes on and tells.</summary>
    public int Next(int by)
    {
        Value += by;
        return Value;
    }

    /// <summary>Gives numbers up to a limit.</summary>
    public bool Take(int limit, out int got)
    {
        got = _taken++;
        return got < limit;
    }
}
