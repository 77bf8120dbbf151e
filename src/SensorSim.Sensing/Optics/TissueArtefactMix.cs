// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>The whole movement artefact of a slot: what the measured acceleration explains, and what it does not.</summary>
/// <remarks>
/// <para>Artefact = √c · T(a) + √(1 − c) · T(b): a the movement of the body, b one of the same knobs with phases and draws of its own, T the
/// tissue. Both have the same spectrum and power in the mean, so the power does not depend on c, and c is their magnitude-squared coherence.</para>
/// <para>A cadence that does not wander would leave both with lines of one frequency and a fixed phase between them, which explain each
/// other perfectly: b wanders by <see cref="LeastSpreadHz"/> at least.</para>
/// </remarks>
internal sealed class TissueArtefactMix
{
    /// <summary>Least standard deviation of the cadence of what nobody measures [Hz].</summary>
    public const double LeastSpreadHz = 0.05;

    private readonly Course _coherence;
    private TissueArtefact _artefact;
    private double _measuredPart = 1;
    private double _unmeasuredPart;

    /// <summary>Creates the artefact of a slot.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="movement">Movement of the body.</param>
    /// <param name="slot">Sampling instants.</param>
    public TissueArtefactMix(KeyValues values, ulong seed, MovementModel movement, SampleGrid slot)
    {
        _coherence = values.Course(TissueArtefactKeys.CoherencePercent);
        var shares = new Axes(
            values[TissueArtefactKeys.ForwardPercent] / 100, values[TissueArtefactKeys.SidewaysPercent] / 100, values[TissueArtefactKeys.UpwardPercent] / 100);
        bool isPartly = _coherence.Lowest < 100 && movement.IsMoving && !values.Course(OpticsKeys.MovementArtefactRatio).IsAlways(0);
        _artefact = new TissueArtefact(movement, isPartly ? Other(values, seed) : null, slot, shares);
    }

    private TissueArtefactMix(TissueArtefactMix other)
    {
        _coherence = other._coherence;
        _artefact = other._artefact.Copy();
        _measuredPart = other._measuredPart;
        _unmeasuredPart = other._unmeasuredPart;
    }

    /// <summary>The body's movement as the slot draws it.</summary>
    public MovementGrid Movement => _artefact.Movement;

    /// <summary>Takes the coherence that holds from a time on.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        double coherence = _coherence.Value(seconds) / 100;
        _measuredPart = Math.Sqrt(Math.Max(0, coherence));
        _unmeasuredPart = Math.Sqrt(Math.Max(0, 1 - coherence));
    }

    /// <summary>Adds the artefact [absorbance]; arguments as for <see cref="TissueArtefact.Add"/>, with the rms of the whole.</summary>
    public void Add(Span<double> buffer, long firstIndex, double rms) =>
        _artefact.Add(buffer, firstIndex, rms * _measuredPart, rms * _unmeasuredPart);

    /// <summary>Shares with another slot what both would make alike.</summary>
    /// <param name="other">Of the same values.</param>
    public void Join(TissueArtefactMix other)
    {
        if (_artefact.IsAlike(other._artefact))
        {
            _artefact = other._artefact;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public TissueArtefactMix Copy() => new(this);

    private static MovementModel Other(KeyValues values, ulong seed)
    {
        var random = new KeyedRandom(seed, "optics.unmeasured_movement");
        KeyValues own = values.Copy().Set(MovementKeys.CadenceSpreadHz, Math.Max(LeastSpreadHz, values[MovementKeys.CadenceSpreadHz]));
        return new MovementModel(own, ((ulong)random.Word(0) << 32) | random.Word(1));
    }
}
