// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Links.Tests;

/// <summary>The numbers of the frame types are those of the protocol's page.</summary>
public sealed class FrameTypeTests
{
    [TestCase(FrameType.Samples, 0x10)]
    [TestCase(FrameType.Marks, 0x90)]
    public void Number_of_a_type_is_that_of_the_page(FrameType type, int number) => Assert.That((int)type, Is.EqualTo(number));
}
