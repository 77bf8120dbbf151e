// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

// Usable light goes through one stage after the other, a run at a time: room, movement, spectrum, pulses and oxygen.
internal partial struct LightPath
{
    private const int MostInRun = Word32.Length;

    /// <summary>Whether there is red light beside a sample; if so, the run goes on as far as it is usable under the same settings, else until there is.</summary>
    private bool TryRed(in ChannelPiece red, long index, ref int count)
    {
        long at = index - red.FirstIndex;
        if (!IsUsable(red, at))
        {
            int without = 1;
            while (without < count && !IsUsable(red, at + without))
            {
                without++;
            }

            count = without;
            return false;
        }

        ushort settings = (ushort)(red.Status[(int)at] >> SampleFlags.SettingsShift);
        if (index != _redExpected || settings != _redSettings)
        {
            _redCanceller.Restart();
            Oxygen.Restart();
        }

        int alike = 1;
        while (alike < count && IsUsable(red, at + alike) && red.Status[(int)at + alike] >> SampleFlags.SettingsShift == settings)
        {
            alike++;
        }

        count = alike;
        _redExpected = index + count;
        _redSettings = settings;
        return true;
    }

    private static bool IsUsable(in ChannelPiece piece, long at) =>
        at >= 0 && at < piece.Status.Length && (piece.Status[(int)at] & SampleFlags.Unusable) == 0;

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

        _last = lights[lights.Length - 1];
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
        int redAt = (int)(index - beside.Red.FirstIndex);
        for (int i = 0; i < codes.Length; i++)
        {
            TakeDark(ref beside, (index + i) * State.Step);
            probe.At((int)_role, index + i);
            int code = codes[i] * _main.Polarity;
            lights[i] = _hasDark ? _dark.Next(code, ref probe) : code - _main.Zero;
            if (i < reds.Length)
            {
                code = beside.Red.Codes[redAt + i] * _red.Polarity;
                reds[i] = _hasDark ? _redSlot.Next(code, _dark, ref probe) : code - _red.Zero;
            }
        }
    }

    private void TakeOffMovement<TProbe>(
        long index, ref Beside beside, scoped Span<int> lights, scoped Span<int> reds, scoped Span<int> artefacts, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        for (int i = 0; i < lights.Length; i++)
        {
            long tick = (index + i) * State.Step;
            if (beside.XDue <= tick)
            {
                Movement.Take(ref beside, tick, ref found, ref probe);
            }

            probe.At((int)_role, index + i);
            lights[i] = _canceller.Next(lights[i], Movement.Reference, ref probe);
            artefacts[i] = _canceller.Estimate;
            if (i < reds.Length)
            {
                reds[i] = _redCanceller.Next(reds[i], Movement.Reference, ref probe);
            }
        }
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
