// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>Heart rate from the spectrum of the light, movement or not: windows of 8 s, every 2 s.</summary>
/// <remarks>
/// <para>What the canceller took off tells where movement is in the spectrum; a share u of it, found from window to window at the lines
/// that the pulse is not at, is expected to be left. For a rate speaks what the light has more than that, at the rate and at twice it. The track
/// joins windows and says how far it is ahead of any other rate: that is the trust.</para>
/// Input: light of up to 24 bits, up to 64 samples summed: 30 bits.
/// Product: see <see cref="SpectrumPair"/>; power × u 24 + 14 bits.
/// Accumulator: 64 bits for those.
/// Worst case: u clips at 8.
/// Output: thousandths of a bpm, at the time 4 s before the newest sample.
/// </remarks>
public struct PulseSpectrum
{
    /// <summary>Lowest rate of the light [Hz].</summary>
    public const int MinimumRateHz = 20;

    /// <summary>Highest rate of the light [Hz].</summary>
    public const int MaximumRateHz = 800;

    private const int LowestBpm = 28;
    private const int HighestBpm = 222;
    private const int LevelShift = 3;
    private const int UnexplainedBits = 10;
    private const int MostUnexplained = 8 << UnexplainedBits;
    private const int HighestOfUse = 110;
    private const int MostResting = 3;
    private const int SecondHarmonicCap = 1024;

    // A margin of 350 is a factor of 2.6 between the powers that the two rates leave, four windows long.
    private const int TrustedMargin = 350;

    private HalfRing _light;
    private HalfRing _artefact;
    private RateTrack _track;
    private int _decimation;
    private int _phase;
    private int _lightSum;
    private int _artefactSum;
    private int _level;
    private int _hop;
    private int _since;
    private int _resting;
    private int _filled;
    private int _length;
    private int _hannStep16;
    private int _rateMilliHz;
    private int _firstBin;
    private int _states;
    private int _unexplained;
    private bool _isFresh;

    /// <summary>Whether nobody asks for the rate: then only every fourth window is worked out, every 8 s, for the track to keep up.</summary>
    public bool IsResting { get; set; }

    /// <summary>Heart rate [1/1000 bpm]; meaningful after a window.</summary>
    public int RateMilliBpm { get; private set; }

    /// <summary>How far the rate is ahead of any other, 0 to 255.</summary>
    public byte Quality { get; private set; }

    /// <summary>Whether the rate may be shown.</summary>
    public bool IsTrusted { get; private set; }

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="lightRateHz">Rate of the light [Hz], 20 to 800.</param>
    /// <returns>Whether the argument is allowed.</returns>
    public bool Start(int lightRateHz)
    {
        if (lightRateHz < MinimumRateHz || lightRateHz > MaximumRateHz)
        {
            return false;
        }

        this = default;
        _decimation = ((2 * lightRateHz) + 12) / 25;
        _rateMilliHz = lightRateHz * 1000 / _decimation;
        int length = 8 * _rateMilliHz / 1000;
        _length = length < Half104.Length ? length : Half104.Length;
        _hop = ((2 * _rateMilliHz) + 500) / 1000;
        _hannStep16 = 32768 / _length;
        _firstBin = LowestBpm * Fft256.Length * 1000 / (60 * _rateMilliHz);
        int states = (HighestBpm * Fft256.Length * 1000 / (60 * _rateMilliHz)) - _firstBin + 1;
        _states = states < Half80.Length ? states : Half80.Length;
        Restart();
        return true;
    }

    /// <summary>Forgets everything, as after a long gap.</summary>
    public void Restart()
    {
        _light.Restart(_length);
        _artefact.Restart(_length);
        _track.Restart(_states);
        _unexplained = 1 << UnexplainedBits;
        _isFresh = true;
        _phase = 0;
        _lightSum = 0;
        _artefactSum = 0;
        _filled = 0;
        _since = 0;
        _resting = 0;
        IsTrusted = false;
        Quality = 0;
    }

    /// <summary>Takes the next sample.</summary>
    /// <param name="light">Light, without the artefact where there is a canceller.</param>
    /// <param name="artefact">What the canceller took off; 0 without one.</param>
    /// <param name="probe">Sees the input of the spectrum.</param>
    /// <returns>Whether there is a new window.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next<TProbe>(int light, int artefact, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        _lightSum += light;
        _artefactSum += artefact;
        return ++_phase >= _decimation && Take(ref probe);
    }

    private bool Take<TProbe>(ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_isFresh)
        {
            _isFresh = false;
            _level = _lightSum;
        }

        // A step of the level goes through in a second and does not tilt the window.
        int high = Sat.Narrow(Sat.Sub32(_lightSum, _level), 1 << 30);
        _level += Shift.Round(high, LevelShift);
        _light.Add(high);
        _artefact.Add(_artefactSum);
        _phase = 0;
        _lightSum = 0;
        _artefactSum = 0;
        _filled += _filled < _length ? 1 : 0;
        probe.See(ProbePoint.SpectrumInput, high);
        if (++_since < _hop || _filled < _length)
        {
            return false;
        }

        _since = 0;
        _light.Settle();
        _artefact.Settle();
        _resting = IsResting && _resting < MostResting ? _resting + 1 : 0;
        if (_resting != 0)
        {
            return false;
        }

        Window();
        return true;
    }

    private void Window()
    {
        var spectra = default(SpectrumPair);
        spectra.Make(_light, _artefact, _length, _hannStep16);
        spectra.Spread();
        Compare(spectra.First, spectra.Second);
        _track.Add(Evidence(spectra.First, spectra.Second));
        int peak = PeakNear(spectra.First, _firstBin + _track.Best);
        RateMilliBpm = (int)((((long)peak * 60 * _rateMilliHz) + (1 << 15)) >> 16);
        int margin = _track.Margin;
        IsTrusted = margin > TrustedMargin;
        Quality = (byte)(margin > 1020 ? 255 : margin >> 2);
    }

    // u: the regression of what is left on what was taken off, at bins where the pulse is not.
    private void Compare(in Word256 light, in Word256 artefact)
    {
        int bin = _firstBin + _track.Best;
        long both = 0;
        long free = 0;
        long all = 0;
        for (int k = _firstBin; k < HighestOfUse; k++)
        {
            long taken = artefact[k] >> 8;
            all += taken * taken >> 8;
            if (Sat.Abs32(k - bin) > RateTrack.Neighbours && Sat.Abs32(k - (2 * bin)) > RateTrack.Neighbours)
            {
                free += taken * taken >> 8;
                both += (light[k] >> 8) * taken >> 8;
            }
        }

        // Where the pulse lies on all the strong lines, there is nothing to learn from.
        if (free > all >> 5)
        {
            int shift = Wide.Bits(free) - 30;
            uint share = (uint)Wide.Shifted(free, -(shift > 0 ? shift : 0));
            ulong left = (ulong)Wide.Shifted(both, UnexplainedBits - (shift > 0 ? shift : 0));
            int now = LongDivision.Rounded(left, share);
            _unexplained += Shift.Round((now < MostUnexplained ? now : MostUnexplained) - _unexplained, 2);
        }
    }

    private readonly Half80 Evidence(in Word256 light, in Word256 artefact)
    {
        int sum = 0;
        for (int s = 0; s < _states; s++)
        {
            sum += light[_firstBin + s];
        }

        // Below a quarter of the mean, power is no evidence against a rate.
        int floor = (LongDivision.Rounded((ulong)sum, (uint)_states) >> 2) + 1;
        Half80 evidence = default;
        for (int s = 0; s < _states; s++)
        {
            int k = _firstBin + s;
            int value = Excess(light[k], artefact[k], floor);
            int twice = 2 * k;
            if (twice < SpectrumPair.Bins - 1)
            {
                int power = light[twice - 1] > light[twice + 1] ? light[twice - 1] : light[twice + 1];
                int more = Excess(power > light[twice] ? power : light[twice], artefact[twice], floor);
                value += more < 0 ? 0 : more < SecondHarmonicCap ? more : SecondHarmonicCap;
            }

            evidence[s] = (short)value;
        }

        return evidence;
    }

    private readonly int Excess(int power, int artefact, int floor) =>
        Wide.Log2In256((long)power + floor) - Wide.Log2In256(floor + (((long)artefact * _unexplained) >> UnexplainedBits));

    // Centre of power of the peak next to a bin: of a rate that varies within the window it is the mean. In 1/256 bin.
    private static int PeakNear(in Word256 light, int bin)
    {
        int top = light[bin - 1] > light[bin] ? bin - 1 : bin;
        top = light[bin + 1] > light[top] ? bin + 1 : top;
        long power = 0;
        long moment = 0;
        for (int offset = -2; offset <= 2; offset++)
        {
            power += light[top + offset];
            moment += (long)light[top + offset] * offset;
        }

        int size = LongDivision.Rounded((ulong)(moment < 0 ? -moment : moment) << 8, (uint)(power + 1));
        return (top << 8) + (moment < 0 ? -size : size);
    }
}
