// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Marks;

/// <summary>A first-in first-out ring of stated capacity; what does not fit is counted, not kept.</summary>
/// <remarks>
/// Memory follows the largest number of entries that ever waited, in doublings up to the capacity: a ring that is emptied every second holds
/// what a second brings, and a study of thousands of short runs does not clear megabytes for each.
/// </remarks>
/// <typeparam name="T">Type of the entries.</typeparam>
public sealed class EventRing<T>
    where T : struct
{
    private const int FirstRoom = 256;
    private T[] _items;
    private int _head;

    /// <summary>Creates a ring.</summary>
    /// <param name="capacity">Entries that fit, at least 1.</param>
    public EventRing(int capacity)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        Capacity = capacity;
        _items = new T[Math.Min(capacity, FirstRoom)];
    }

    /// <summary>Entries that fit.</summary>
    public int Capacity { get; }

    /// <summary>Entries present.</summary>
    public int Count { get; private set; }

    /// <summary>Entries that found no room since the ring was made.</summary>
    public long OverflowCount { get; private set; }

    /// <summary>An entry by age.</summary>
    /// <param name="age">0 for the oldest, <see cref="Count"/> − 1 for the newest.</param>
    public ref T this[int age]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)age, (uint)Count, nameof(age));
            int index = _head + age;
            return ref _items[index >= _items.Length ? index - _items.Length : index];
        }
    }

    /// <summary>Adds an entry as the newest.</summary>
    /// <param name="item">The entry.</param>
    /// <returns>Whether there was room; if not, the overflow count has gone up.</returns>
    public bool Add(in T item)
    {
        T[] items = _items;
        int count = Count;
        if (count == items.Length)
        {
            return AddToMore(item);
        }

        int index = _head + count;
        ref T place = ref items[index >= items.Length ? index - items.Length : index];
        place = item;
        Count = count + 1;
        return true;
    }

    /// <summary>Takes out the oldest entry.</summary>
    /// <param name="item">Receives it.</param>
    /// <returns>Whether there was one.</returns>
    public bool TryTake(out T item)
    {
        if (Count == 0)
        {
            item = default;
            return false;
        }

        item = _items[_head];
        _head = _head + 1 == _items.Length ? 0 : _head + 1;
        Count--;
        return true;
    }

    /// <summary>An independent copy, its overflow count included.</summary>
    public EventRing<T> Copy()
    {
        return new EventRing<T>(Capacity) { _items = (T[])_items.Clone(), _head = _head, Count = Count, OverflowCount = OverflowCount };
    }

    /// <summary>Removes every entry; the overflow count stays.</summary>
    public void Clear()
    {
        _head = 0;
        Count = 0;
    }

    // Apart, so that the usual way calls nothing.
    private bool AddToMore(in T item)
    {
        if (TryGrow())
        {
            return Add(item);
        }

        OverflowCount++;
        return false;
    }

    // The oldest entry moves to the front.
    private bool TryGrow()
    {
        if (_items.Length == Capacity)
        {
            return false;
        }

        var larger = new T[(int)Math.Min(Capacity, 2L * _items.Length)];
        int untilEnd = Math.Min(Count, _items.Length - _head);
        Array.Copy(_items, _head, larger, 0, untilEnd);
        Array.Copy(_items, 0, larger, untilEnd, Count - untilEnd);
        _items = larger;
        _head = 0;
        return true;
    }
}
