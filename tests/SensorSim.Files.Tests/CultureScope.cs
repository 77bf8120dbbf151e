// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Files.Tests;

/// <summary>Sets the culture of the thread for a while.</summary>
internal sealed class CultureScope : IDisposable
{
    private readonly CultureInfo _before = CultureInfo.CurrentCulture;

    public CultureScope(string name) => CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);

    public void Dispose() => CultureInfo.CurrentCulture = _before;
}
