// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>How a figure is stored.</summary>
public enum FigureFormat
{
    /// <summary>Pixels, 1600 wide.</summary>
    Png,

    /// <summary>Vectors, drawn 1600 units wide and scalable to any size.</summary>
    Svg,
}

/// <summary>Reads the format from a file name.</summary>
public static class FigureFormats
{
    /// <summary>The format that the ending of <paramref name="path"/> asks for.</summary>
    /// <param name="path">A file name that ends in .png or .svg (capitals do not matter).</param>
    /// <exception cref="ArgumentException">Another ending.</exception>
    public static FigureFormat FromPath(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string ending = Path.GetExtension(path);
        if (ending.Equals(".png", StringComparison.OrdinalIgnoreCase))
        {
            return FigureFormat.Png;
        }

        return ending.Equals(".svg", StringComparison.OrdinalIgnoreCase)
            ? FigureFormat.Svg
            : throw new ArgumentException($"\"{path}\": a figure's file name must end in .png or .svg.", nameof(path));
    }
}
