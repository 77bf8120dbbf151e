// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>How well the sensor touches the skin in one slot: the knob, less what lift-offs take.</summary>
internal sealed class SkinContact
{
    /// <summary>Below this share the sensor has no contact.</summary>
    public const double LeastContact = 0.05;

    private readonly Course _course;
    private readonly LiftOffs _liftOffs;
    private readonly double _leak;
    private readonly double[] _drawn;

    /// <summary>Creates the contact of a slot.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="mostSamples">Most samples made at once.</param>
    public SkinContact(KeyValues values, ulong seed, int mostSamples)
    {
        _course = values.Course(ContactKeys.ContactPercent);
        _liftOffs = new LiftOffs(values, seed);
        _leak = values[ContactKeys.LeakRatio] - 1;
        _drawn = new double[_liftOffs.IsOn ? mostSamples : 0];
        Latched = 1;
    }

    private SkinContact(SkinContact other)
    {
        _course = other._course;
        _liftOffs = other._liftOffs.Copy();
        _leak = other._leak;
        _drawn = new double[other._drawn.Length];
        Latched = other.Latched;
    }

    /// <summary>Contact outside of lift-offs, 0 to 1.</summary>
    public double Latched { get; private set; }

    /// <summary>Whether a lift-off touches the stretch drawn last; then <see cref="Drawn"/> holds the contact, else it is <see cref="Latched"/>.</summary>
    public bool IsLifting { get; private set; }

    /// <summary>Contact of each sample of the stretch drawn last, when <see cref="IsLifting"/>.</summary>
    public ReadOnlySpan<double> Drawn => _drawn;

    /// <summary>Whether there are lift-offs at all.</summary>
    public bool MayLift => _liftOffs.IsOn;

    /// <summary>Whether a lift-off lies over a stretch of time.</summary>
    /// <param name="beginSeconds">Body time [s].</param>
    /// <param name="endSeconds">Body time [s].</param>
    public bool LiftsWithin(double beginSeconds, double endSeconds) => _liftOffs.IsOn && _liftOffs.Touch(beginSeconds, endSeconds);

    /// <summary>Takes the value that the knob has at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds) => Latched = _course.Value(seconds) * 0.01;

    /// <summary>Draws the contact of samples.</summary>
    public void Draw(in SampleGrid grid, long firstIndex, int count) =>
        IsLifting = _liftOffs.IsOn && _liftOffs.Draw(_drawn.AsSpan(0, count), Latched, grid, firstIndex);

    /// <summary>Ambient light that comes in on top, over that with full contact.</summary>
    /// <param name="contact">Contact, 0 to 1.</param>
    public double Leak(double contact) => _leak * (1 - contact);

    /// <summary>An independent copy with the same state.</summary>
    public SkinContact Copy() => new(this);
}
