// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

// Usable light goes through one stage after the other, a run at a time: room, movement, spectrum, pulses and oxygen.
internal partial struct LightPath
{
    private const int MostInRun = Word32.Length;

    /// <summary>How many of the next samples have usable red light of the same settings beside them, or how many have none.</summary>
    /// <param name="red">The red light.</param>
    /// <param name="index">Index of the next sample.</param>
    /// <param name="most">No more than so many.</param>
    /// <param name="hasRed">Whether it is there.</param>
    private static int CountAlike(in ChannelPiece red, long index, int most, out bool hasRed)
    {
        long at = index - red.FirstIndex;
        int settings = SettingsOf(red, at);
        hasRed = settings >= 0;
        int count = 1;
        while (count < most && SettingsOf(red, at + count) == settings)
        {
            count++;
        }

        return count;
    }

    // The red light of a run: where it does not go on from what was, what was learned of it begins anew.
    private void FollowRed(in ChannelPiece red, long index, int count)
    {
        int settings = SettingsOf(red, index - red.FirstIndex);
        if (index != _redExpected || settings != _redSettings)
        {
            _redCanceller.Restart();
            Oxygen.Restart();
        }

        _redExpected = index + count;
        _redSettings = (ushort)settings;
    }

    // Number of the settings of a usable sample; −1 where there is none.
    private static int SettingsOf(in ChannelPiece piece, long at)
    {
        bool isUsable = at >= 0 && at < piece.Status.Length && (piece.Status[(int)at] & SampleFlags.Unusable) == 0;
        return isUsable ? piece.Status[(int)at] >> SampleFlags.SettingsShift : -1;
    }

    private void Run<TProbe>(ReadOnlySpan<int> codes, long index, bool hasRed, ref Beside beside, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        Word32 light = default;
        Word32 red = default;
        Word32 taken = default;
        Span<int> lights = ((Span<int>)light).Slice(0, codes.Length);
        Span<int> reds = ((Span<int>)red).Slice(0, hasRed ? codes.Length : 0);
        Span<int> artefacts = ((Span<int>)taken).Slice(0, codes.Length);
        TakeOffRoom(codes, index, ref beside, lights, reds, ref probe);
        if (Movement.IsThere)
        {
            TakeOffMovement(index, ref beside, lights, reds, artefacts, ref found, ref probe);
        }

        _lastLight = lights[lights.Length - 1];
        for (int i = 0; i < lights.Length && _hasSpectrum; i++)
        {
            if (_spectrum.Next(lights[i], artefacts[i], ref probe))
            {
                found.Add(new Found
                {
                    Tick = (index + i) * State.Step,
                    Kind = FoundKind.Spectrum,
                    RateMilli = _spectrum.RateMilliBpm,
                    Quality = _spectrum.Quality,
                    IsTrusted = _spectrum.IsTrusted,
                });
            }
        }

        SeekPulses(lights, reds, ref found, ref probe);
    }

    private void TakeOffRoom<TProbe>(
        ReadOnlySpan<int> codes, long index, ref Beside beside, scoped Span<int> lights, scoped Span<int> reds, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        for (int i = 0; i < codes.Length && i < lights.Length; i++)
        {
            lights[i] = codes[i] * _main.Polarity;
        }

        int redAt = (int)(index - beside.Red.FirstIndex);
        for (int i = 0; i < reds.Length; i++)
        {
            reds[i] = beside.Red.Codes[redAt + i] * _red.Polarity;
        }

        int together = CountTogether(index, codes.Length, beside);
        if (together > 0)
        {
            probe.At((int)_role, index);
            _dark.Take(
                beside.Dark.Codes.Slice(beside.DarkAt, together), _darkPolarity, lights[..together], ref _redSlot, reds.Length == 0 ? reds : reds[..together], ref probe);
            beside.DarkAt += together;
            beside.DarkDue = Beside.DueOf(beside.Dark, beside.DarkAt, _darkStep);
        }

        for (int i = together; i < codes.Length; i++)
        {
            TakeDark(ref beside, (index + i) * State.Step);
            probe.At((int)_role, index + i);
            lights[i] = _hasDark ? _dark.Next(lights[i], ref probe) : lights[i] - _main.Zero;
            if (i < reds.Length)
            {
                reds[i] = _hasDark ? _redSlot.Next(reds[i], _dark, ref probe) : reds[i] - _red.Zero;
            }
        }
    }

    /// <summary>How many samples of the light have a usable dark one of their own, one after the other.</summary>
    private readonly int CountTogether(long index, int most, in Beside beside)
    {
        long tick = index * State.Step;
        if (!_hasDark || _darkStep != State.Step || beside.DarkDue > tick || beside.DarkDue <= tick - State.Step)
        {
            return 0;
        }

        int left = beside.Dark.Status.Length - beside.DarkAt;
        most = left < most ? left : most;
        int count = 0;
        while (count < most && (beside.Dark.Status[beside.DarkAt + count] & SampleFlags.Clipped) == 0)
        {
            count++;
        }

        return count;
    }

    private void TakeOffMovement<TProbe>(
        long index, ref Beside beside, scoped Span<int> lights, scoped Span<int> reds, scoped Span<int> artefacts, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int still = Movement.Reference.IsStill ? TakeStill(index, ref beside, lights, reds, ref found, ref probe) : 0;
        for (int done = still; done < lights.Length;)
        {
            long tick = (index + done) * State.Step;
            if (beside.XDue <= tick)
            {
                Movement.Take(ref beside, tick, ref found, ref probe);
            }

            // The reference stays as it is until the acceleration that comes next.
            int count = 1;
            while (done + count < lights.Length && beside.XDue > (index + done + count) * State.Step)
            {
                count++;
            }

            probe.At((int)_role, index + done);
            _canceller.Take(lights.Slice(done, count), artefacts.Slice(done, count), Movement.Reference, ref probe);
            if (reds.Length > 0)
            {
                _redCanceller.Take(reds.Slice(done, count), default, Movement.Reference, ref probe);
            }

            done += count;
        }
    }

    /// <summary>As long as the reference is still it may go ahead: only its steps are asked for.</summary>
    /// <returns>How many samples were taken; the acceleration up to the next one too.</returns>
    private int TakeStill<TProbe>(
        long index, ref Beside beside, scoped Span<int> lights, scoped Span<int> reds, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int before = Movement.Reference.Steps;
        int count = GoAhead(index, lights.Length, ref beside, out uint stepped, out int after, ref found, ref probe);
        if (count > 0)
        {
            probe.At((int)_role, index);
            _canceller.TakeStill(lights[..count], stepped, before, after, ref probe);
            if (reds.Length > 0)
            {
                _redCanceller.TakeStill(reds[..count], stepped, before, after, ref probe);
            }
        }

        return count;
    }

    /// <summary>Takes the acceleration up to the one with which the reference is not still any more.</summary>
    /// <returns>How many samples of the light come before that one.</returns>
    private int GoAhead<TProbe>(long index, int lights, ref Beside beside, out uint stepped, out int after, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (Avx2.IsSupported && probe.MostAtOnce >= MostInRun && Movement.CanTakeStill(beside, index * State.Step, State.Step))
        {
            int still = Movement.TakeStill(ref beside, index * State.Step, State.Step, lights, out stepped, ref found, ref probe);
            // The step with which it is not still any more belongs to the sample of the light that comes next.
            after = Movement.Reference.IsStill ? Movement.Reference.Steps : unchecked(Movement.Reference.Steps - 1);
            return still;
        }

        stepped = 0;
        after = Movement.Reference.Steps;
        uint bit = 1;
        int count = 0;
        while (count < lights)
        {
            long tick = (index + count) * State.Step;
            if (beside.XDue <= tick)
            {
                Movement.Take(ref beside, tick, ref found, ref probe);
                if (!Movement.Reference.IsStill)
                {
                    break;
                }

                stepped |= Movement.Reference.Steps != after ? bit : 0;
                after = Movement.Reference.Steps;
            }

            bit <<= 1;
            count++;
        }

        return count;
    }

    // What belongs to a pulse, oxygen too, ends with the sample that showed it, however the stream is cut.
    private void SeekPulses<TProbe>(ReadOnlySpan<int> lights, ReadOnlySpan<int> reds, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int correlated = 0;
        for (int done = 0; done < lights.Length;)
        {
            int taken = _pulses.Take(lights[done..], ref probe, out bool isPulse);
            done += taken;

            // None taken: it was found while a gap was bridged, and shows with the sample that comes next.
            int shown = taken == 0 ? done + 1 : done;
            for (; correlated < shown && correlated < reds.Length; correlated++)
            {
                Oxygen.Next(reds[correlated], lights[correlated], ref probe);
            }

            if (isPulse)
            {
                PulseEvent pulse = _pulses.Event;
                bool isOxygen = _hasOxygen && Oxygen.Pulse(pulse, pulse.Foot.In256 * State.Step);
                found.AddPulse(pulse, _pulses.SignalLevel, _pulses.NoiseLevel, isOxygen, pulse.FoundAt * State.Step);
            }
        }
    }
}
