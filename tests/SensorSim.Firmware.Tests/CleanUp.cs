// SPDX-License-Identifier: MIT
using SensorSim.Firmware.Tests.Twins;

namespace SensorSim.Firmware.Tests;

/// <summary>Takes away what the tests built, after the last of them in any folder.</summary>
[SetUpFixture]
public sealed class CleanUp
{
    [OneTimeTearDown]
    public void Remove() => TwinBuild.Remove();
}
