// SPDX-License-Identifier: MIT
using SensorSim.Body.Site;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>Gravity in the sensor's axes: 1 g in the direction of the posture, turning smoothly within 2 s when the posture changes.</summary>
/// <remarks>
/// A turn begins at the direction reached by the one before, about the axis perpendicular to both ends; opposite ends turn about the body's
/// long axis. Directions are choices of this project: trunk and head lie as the body does; hands lie with their backs up or to a side.
/// </remarks>
internal sealed class PostureCourse
{
    /// <summary>How long a turn takes [s].</summary>
    public const double TurnSeconds = 2;

    private readonly double[] _at;
    private readonly Turn[] _turns;
    private readonly Axes _first;

    public PostureCourse(KeyValues values)
    {
        ChoiceCourse posture = values.Course(MovementKeys.Posture);
        bool isHand = values[SiteKeys.Site] is "finger" or "wrist";
        _first = Direction(posture.First, isHand);
        _at = [.. posture.Changes.Select(c => c.AtSeconds)];
        _turns = new Turn[_at.Length];
        for (int i = 0; i < _turns.Length; i++)
        {
            Axes from = i == 0 ? _first : Reached(i - 1, _at[i]);
            _turns[i] = Turn.Between(from, Direction(posture.Changes[i].Word, isHand));
        }
    }

    /// <summary>Whether gravity never turns.</summary>
    public bool IsConstant => _at.Length == 0;

    /// <summary>Gravity at a time [g]; magnitude 1.</summary>
    public Axes At(double seconds)
    {
        int turn = LastTurn(seconds);
        return turn < 0 ? _first : Reached(turn, seconds);
    }

    /// <summary>Whether gravity does not turn between two times, and what it is at the first.</summary>
    public bool IsSteady(double beginSeconds, double endSeconds, out Axes gravity)
    {
        gravity = At(beginSeconds);
        int turn = LastTurn(endSeconds);
        return turn < 0 || _at[turn] + TurnSeconds <= beginSeconds;
    }

    /// <summary>Moves a block to its place with gravity in it.</summary>
    public void Begin(MovementBlock block, long number)
    {
        double begin = block.Grid.Seconds(number * block.Count);
        bool isSteady = IsSteady(begin, block.Grid.Seconds((number * block.Count) + block.Count - 1), out Axes gravity);
        block.MoveTo(number);
        for (int i = 0; i < block.Count; i++)
        {
            Axes now = isSteady ? gravity : At(block.Seconds(i));
            for (int row = 0; row < block.Rows.Length; row++)
            {
                block.Rows[row][i] = block.Directions[row].Dot(now);
            }
        }
    }

    private static Axes Direction(string posture, bool isHand) => posture switch
    {
        "supine" => isHand ? new Axes(0, 1, 0) : new Axes(1, 0, 0),
        "prone" => isHand ? new Axes(0, 0.8, -0.6) : new Axes(-1, 0, 0),
        "left_side" => isHand ? new Axes(-0.6, 0.8, 0) : new Axes(0, -1, 0),
        "right_side" => isHand ? new Axes(0.6, -0.8, 0) : new Axes(0, 1, 0),
        _ => new Axes(0, 0, 1),
    };

    private int LastTurn(double seconds)
    {
        int turn = _at.Length - 1;
        while (turn >= 0 && _at[turn] > seconds)
        {
            turn--;
        }

        return turn;
    }

    private Axes Reached(int turn, double seconds) => _turns[turn].At((seconds - _at[turn]) / TurnSeconds);

    private readonly record struct Turn(Axes From, Axes To, Axes Axis, double Turns)
    {
        public static Turn Between(Axes from, Axes to)
        {
            Axes axis = from.Cross(to);
            double sin = axis.Magnitude;
            double turns = PortableMath.Atan2(sin, from.Dot(to)) / (2 * Math.PI);
            if (sin < 1e-6)
            {
                // The long axis less its part along gravity; lying along it, the axis to the left.
                var up = new Axes(0, 0, 1);
                axis = up - (from.Dot(up) * from);
                axis = axis.Magnitude > 0.1 ? axis : new Axes(0, 1, 0);
                sin = axis.Magnitude;
            }

            return new Turn(from, to, (1 / sin) * axis, turns);
        }

        public Axes At(double place)
        {
            if (place >= 1)
            {
                return To;
            }

            PortableMath.SinCosTurns(Turns * ChoiceWeight.Rise(place), out double sin, out double cos);
            return From.Turned(Axis, sin, cos);
        }
    }
}
