// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>Lays the ECG of one event after the other, and finds its truth once its neighbours are laid.</summary>
internal sealed class EcgPlanner
{
    private const double QtMemorySeconds = 60;
    private const double RecentMemorySeconds = 10;

    // A silence is no rate: it enters the averages as the interval of 20 bpm, or QT and PR would grow without end.
    private const double LongestRememberedSeconds = 3;

    // Events before and after an event whose waves may reach it.
    private const int MostDistance = 8;

    // No wave reaches farther after its event, its cut at 1e-11 included: 1.5 s at the longest QT (0.6 s × √3 s by Bazett), with room [s].
    private const double FarthestSeconds = 2;

    // A spike stands this long before the wave that it starts (choice of this project).
    private const double SpikeLeadSeconds = 0.004;

    private readonly EcgShape _shape;
    private readonly BreathingModel _breathing;
    private readonly EcgActivity _activity;
    private readonly Course _spikeMv;
    private readonly Course _spikeMs;
    private readonly EcgBeat[] _neighbours = new EcgBeat[RPeakSolver.MostNeighbours];
    private double _laggedRrSeconds;
    private double _recentRrSeconds;
    private double _lastRSeconds = double.NaN;
    private long _beats;

    public EcgPlanner(KeyValues values, BreathingModel breathing, EcgActivity activity, double meanRrSeconds)
    {
        _shape = new EcgShape(values);
        _breathing = breathing;
        _activity = activity;
        _spikeMv = values.Course(PacingKeys.SpikeMv);
        _spikeMs = values.Course(PacingKeys.SpikeMs);
        _laggedRrSeconds = meanRrSeconds;
        _recentRrSeconds = meanRrSeconds;
    }

    private EcgPlanner(EcgPlanner other)
    {
        _shape = other._shape;
        _breathing = other._breathing;
        _activity = other._activity;
        _spikeMv = other._spikeMv;
        _spikeMs = other._spikeMs;
        _laggedRrSeconds = other._laggedRrSeconds;
        _recentRrSeconds = other._recentRrSeconds;
        _lastRSeconds = other._lastRSeconds;
        _beats = other._beats;
    }

    /// <summary>An independent copy with the same state.</summary>
    public EcgPlanner Copy() => new(this);

    /// <summary>Lays an event's waves.</summary>
    public void Lay(in HeartEvent item, ref BeatView view, long id)
    {
        view = default;
        view.Id = id;
        view.Seconds = item.Seconds;
        view.Class = item.Class;
        double depth = _breathing.Depth(item.Seconds);
        if (item.Class == BeatClass.Blocked)
        {
            view.BeatId = -1;
            view.LaggedRrSeconds = _laggedRrSeconds;
            view.Ecg = _shape.LayP(item.Seconds - _shape.POnsetToRSeconds(item.Seconds, _laggedRrSeconds), depth);
            return;
        }

        Remember(item.Seconds, ref view);
        view.BeatId = _beats++;
        double pr = item.ExtraPrSeconds == 0 ? item.PrSeconds : _shape.PrSeconds(item.Seconds, _laggedRrSeconds) + item.ExtraPrSeconds;
        view.Ecg = _shape.Lay(new EcgPlan(
            item.Seconds, view.LaggedRrSeconds, item.Class, item.HasP, pr, depth, IsAlternate: (view.BeatId & 1) != 0,
            item.Class == BeatClass.VentricularRun ? QtLimits.LargestShare * view.RrSeconds : double.PositiveInfinity));
        view.Spikes[0] = item.HasAtrialSpike ? Spike(view.Ecg[EcgBeat.P].OnsetSeconds - SpikeLeadSeconds) : default;
        view.Spikes[1] = item.HasVentricularSpike ? Spike(view.Ecg[EcgBeat.Q].OnsetSeconds - SpikeLeadSeconds) : default;
        view.Filling = item.PulseShare;
        view.UsualRrSeconds = item.UsualRrSeconds;
    }

    /// <summary>Finds R peak and hidden edges of an event.</summary>
    /// <param name="ring">The events.</param>
    /// <param name="id">Number of the event.</param>
    /// <param name="untilSeconds">Every event before this time is laid; later ones do not count, whether laid or not [s].</param>
    public void Finish(BeatRing ring, long id, double untilSeconds)
    {
        ref BeatView view = ref ring[id];
        int count = 0;
        double begin = Math.Min(view.Ecg[EcgBeat.P].CentreSeconds, view.Ecg[EcgBeat.Q].CentreSeconds) - Margin(view.Ecg[EcgBeat.P]);
        double end = view.Ecg[EcgBeat.T].CentreSeconds + Margin(view.Ecg[EcgBeat.T]);
        bool hasBefore = true;
        bool hasAfter = true;
        for (int distance = 1; distance <= MostDistance && (hasBefore || hasAfter); distance++)
        {
            hasBefore = hasBefore && Take(ring, id - distance, untilSeconds, begin, end, ref count);
            hasAfter = hasAfter && Take(ring, id + distance, untilSeconds, begin, end, ref count);
        }

        ReadOnlySpan<EcgBeat> neighbours = _neighbours.AsSpan(0, count);
        view.Overlapped = EcgEdges.Overlapped(neighbours, view.Ecg);
        if (view.IsBeat)
        {
            view.R = RPeakSolver.Solve(neighbours, view.Ecg, _activity);
        }
    }

    // Nearer events first; one counts when any of its waves reaches into the event's own span. Returns whether one that is farther away on the
    // same side may still count: events stand in order of time.
    private bool Take(BeatRing ring, long other, double untilSeconds, double begin, double end, ref int count)
    {
        if (other < BodyModel.FirstBeatId || count == _neighbours.Length)
        {
            return false;
        }

        // A place of the ring that holds another event than asked for has not been laid yet.
        ref BeatView view = ref ring[other];
        if (view.Id != other || view.Seconds >= untilSeconds
            || view.Seconds + FarthestSeconds < begin || view.Seconds - BodyModel.LeadSeconds > end)
        {
            return false;
        }

        ref EcgBeat waves = ref view.Ecg;
        if (waves[EcgBeat.T].CentreSeconds + Margin(waves[EcgBeat.T]) > begin
            && Math.Min(waves[EcgBeat.P].CentreSeconds - Margin(waves[EcgBeat.P]), waves[EcgBeat.Q].CentreSeconds - Margin(waves[EcgBeat.Q])) < end)
        {
            _neighbours[count++] = waves;
        }

        return true;
    }

    private static double Margin(in EcgWave wave) => EcgWave.CutSigmas * wave.SigmaSeconds;

    private PacingSpike Spike(double seconds) =>
        new(seconds, _spikeMs.Value(seconds) * 1e-3, _spikeMv.Value(seconds));

    // First-order lags on elapsed time.
    private void Remember(double rSeconds, ref BeatView view)
    {
        if (!double.IsNaN(_lastRSeconds))
        {
            view.RrSeconds = rSeconds - _lastRSeconds;
            double rr = Math.Min(LongestRememberedSeconds, view.RrSeconds);
            double keep = PortableMath.Exp(-rr / QtMemorySeconds);
            _laggedRrSeconds = (keep * _laggedRrSeconds) + ((1 - keep) * rr);
            keep = PortableMath.Exp(-rr / RecentMemorySeconds);
            _recentRrSeconds = (keep * _recentRrSeconds) + ((1 - keep) * rr);
        }
        else
        {
            view.RrSeconds = _laggedRrSeconds;
        }

        _lastRSeconds = rSeconds;
        view.LaggedRrSeconds = _laggedRrSeconds;
        view.RecentRrSeconds = _recentRrSeconds;
    }
}
