// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Dark subtraction as its page defines it, in doubles: straight line or smoothed dark, and which of both.</summary>
/// <param name="lightHz">Rate of the lit slot [Hz].</param>
/// <param name="darkHz">Rate of the dark slot [Hz].</param>
/// <param name="shift">Where in the interval of the dark slot the lit one lies after it, 0 to 1; from a half on the dark one comes after the lit.</param>
internal sealed class DarkSubtractionTwin(int lightHz, int darkHz, double shift)
{
    private const int Warm = 32;
    private readonly double _first = shift < 0.5 ? shift : shift - 1;

    // A mean of about a second: the power of two below the number of samples in it.
    private readonly double _levelShare = Math.ScaleB(1, -Math.ILogB(darkHz));
    private double _latest;
    private double _slope;
    private double _place;
    private double _smooth;
    private double _lineError;
    private double _smoothError;
    private int _seen;

    /// <summary>Mean of the room's light [codes].</summary>
    public double Ambient { get; private set; }

    /// <summary>Mean distance from it [codes].</summary>
    public double Swing { get; private set; }

    /// <summary>Whether the smoothed dark is taken off.</summary>
    public bool IsSmoothing { get; private set; }

    /// <summary>Takes a sample of the dark slot, counted from no light.</summary>
    public void Dark(double dark)
    {
        if (_seen == 0)
        {
            (_latest, _smooth, Ambient) = (dark, dark, dark);
        }

        double change = dark - _latest;
        double off = Math.Abs(dark - _smooth);
        double mostUsual = _seen < Warm ? double.PositiveInfinity : (8 * _lineError) + 16;
        _slope = Math.Abs(change) > mostUsual ? 0 : change;
        _smooth = off > mostUsual ? dark : _smooth;
        _lineError += (Math.Min(Math.Abs(change), mostUsual) - _lineError) / 32;
        _smoothError += (Math.Min(off, mostUsual) - _smoothError) / 32;
        _smooth += (dark - _smooth) / 8;
        Swing += (Math.Abs(dark - Ambient) - Swing) * _levelShare;
        Ambient += (dark - Ambient) * _levelShare;
        (_latest, _place) = (dark, _first);
        if (++_seen >= Warm)
        {
            IsSmoothing = _smoothError < _lineError * (IsSmoothing ? 9 : 7) / 8;
        }
    }

    /// <summary>Takes a sample of the lit slot, counted from no light, and gives the light of the LED.</summary>
    public double Next(double light)
    {
        double room = IsSmoothing ? _smooth : _latest + (_slope * _place);
        _place = Math.Min(1, _place + ((double)darkHz / lightHz));
        return light - room;
    }
}
