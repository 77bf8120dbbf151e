// SPDX-License-Identifier: MIT
namespace BandApp.Tests;

/// <summary>The firmware of the band as a C library, on the same scenarios as the app. The environment variable BAND_FIRMWARE names the library.</summary>
[TestFixture]
public sealed class FirmwareTests
{
    private UnderTest _firmware = null!;

    [OneTimeSetUp]
    public void Load()
    {
        if (Environment.GetEnvironmentVariable("BAND_FIRMWARE") is not { Length: > 0 } path)
        {
            Assert.Ignore("BAND_FIRMWARE names no library.");
            return;
        }

        _firmware = UnderTest.CLibrary(path);
    }

    [OneTimeTearDown]
    public void LetGo() => _firmware?.Dispose();

    [Test]
    public void FirmwareFindsEveryBeatAtDesk() =>
        Assert.That(_firmware, Finds.RPeaks.Sensitivity.AtLeast(0.995).PositivePredictivity.AtLeast(0.995).On(Given.Scenario("scenarios/at-desk.toml")));

    [Test]
    public void FirmwareKeepsTheContract() => Assert.That(_firmware, Keeps.TheContract.On(Given.Scenario("scenarios/lossy-radio.toml")));
}
