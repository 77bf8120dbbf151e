// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint.Tests;

[TestFixture]
public sealed class Sort8Tests
{
    // Knuth, The Art of Computer Programming 3, 5.3.4: a network that sorts every row of zeros and ones sorts everything.
    [Test]
    public void Sort_EveryRowOfZerosAndOnes_IsInOrder()
    {
        for (int row = 0; row < 256; row++)
        {
            Word8 values = default;
            for (int i = 0; i < Word8.Length; i++)
            {
                values[i] = (row >> i) & 1;
            }

            Sort8.Sort(ref values);

            for (int i = 0; i < Word8.Length; i++)
            {
                Assert.That(values[i], Is.EqualTo(i >= 8 - int.PopCount(row) ? 1 : 0), $"row {row}, place {i}");
            }
        }
    }

    [Test]
    public void Sort_NumbersOfAnySize_AreTheSameNumbersInOrder()
    {
        int[] numbers = [7, int.MaxValue, -3, int.MinValue, 7, 0, int.MaxValue - 1, -3];
        Word8 values = default;
        numbers.CopyTo(values);

        Sort8.Sort(ref values);

        Assert.That(((ReadOnlySpan<int>)values).ToArray(), Is.EqualTo(numbers.Order()));
    }
}
