// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

/// <summary>The rhythm check's counting by words of bits against pairs counted one by one.</summary>
[TestFixture]
public sealed class RhythmMatchTests
{
    [Test]
    public void Add_AnyRhythm_DecidesAsPairsCountedOneByOne()
    {
        var random = new Random(5102);
        var check = new RhythmCheck();
        check.Start(new CommonClock(1000));
        var twin = new Twin();
        long at256 = 0;
        int changes = 0;
        for (int beat = 0; beat < 20_000; beat++)
        {
            // Spreads on both sides of the decision, now and then a beat that is not normal or a gap.
            double spread = 0.02 + (0.1 * (beat / 100 % 4));
            int interval = Math.Max(250, (int)(700 * (1 + (spread * SyntheticEcg.Normal(random)))));
            bool isNormal = random.Next(30) != 0;
            bool startsRun = random.Next(200) == 0;
            at256 += interval * 256L;
            bool hasChanged = check.Add(at256, startsRun, isNormal);
            Assert.That(hasChanged, Is.EqualTo(twin.Add(interval * 4, startsRun, isNormal)), $"beat {beat}");
            changes += hasChanged ? 1 : 0;
        }

        Assert.That(changes, Is.GreaterThan(50));
    }

    private sealed class Twin
    {
        private readonly List<int> _intervals = [];
        private bool _hasLast;
        private bool _wasNormal;
        private bool _isIrregular;
        private int _since;
        private int _votes;

        public bool Add(int interval, bool startsRun, bool isNormal)
        {
            bool isFirst = !_hasLast;
            bool isUsable = !startsRun && isNormal && _wasNormal;
            _hasLast = true;
            _wasNormal = isNormal;
            if (isFirst)
            {
                return false;
            }

            _intervals.Add(isUsable ? interval : 0);
            _since++;
            if (_intervals.Count < 32 || _since < 4)
            {
                return false;
            }

            _since = 0;
            return Look([.. _intervals.TakeLast(32)]);
        }

        private bool Look(int[] x)
        {
            int count = x.Count(v => v != 0);
            if (count < 24)
            {
                _votes = 0;
                return false;
            }

            int near = (int)Math.Floor((x.Sum() / (12.0 * count)) + 0.5);
            bool Match(int i, int j) => x[i] != 0 && x[j] != 0 && Math.Abs(x[i] - x[j]) <= near;
            int one = 0;
            int two = 0;
            int asked = 0;
            int three = 0;
            for (int i = 0; i < 31; i++)
            {
                for (int j = i + 1; j < 31; j++)
                {
                    bool isOne = Match(i, j) && x[i + 1] != 0 && x[j + 1] != 0;
                    bool isTwo = isOne && Match(i + 1, j + 1);
                    bool isAsked = isTwo && j + 2 < 32 && x[i + 2] != 0 && x[j + 2] != 0;
                    one += isOne ? 1 : 0;
                    two += isTwo ? 1 : 0;
                    asked += isAsked ? 1 : 0;
                    three += isAsked && Match(i + 2, j + 2) ? 1 : 0;
                }
            }

            bool isLow = 8 * two <= 3 * one && 2 * three <= asked;
            bool isHigh = 2 * two > one || 8 * three > 5 * asked;
            _votes = (_isIrregular ? isHigh : isLow) ? _votes + 1 : 0;
            if (_votes < 2)
            {
                return false;
            }

            _votes = 0;
            _isIrregular = !_isIrregular;
            return true;
        }
    }
}
