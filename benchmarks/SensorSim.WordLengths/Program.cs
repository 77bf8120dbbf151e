// SPDX-License-Identifier: MIT
using SensorSim.WordLengths;

// Prints the tables of docs on word lengths; with a path that ends in .png or .svg draws their picture as well.
if (args.Length > 1)
{
    Console.Error.WriteLine("usage: SensorSim.WordLengths [PICTURE.png]");
    return 2;
}

StudyRow[] converter = [.. Enumerable.Range(5, 20).Select(Study.Converter)];
StudyRow[] state = [.. Enumerable.Range(5, 20).Select(Study.State)];
StudyRow[] coefficients = [.. Enumerable.Range(4, 13).Select(Study.Coefficients)];
Tables.Write(Console.Out, "Bits of the converter (the fixed-point library behind it)", converter);
Tables.Write(Console.Out, "Bits of the state words (twin)", state.Append(Study.Doubles()));
Tables.Write(Console.Out, "Bits of the weights of the cubic fit (twin)", coefficients);
Tables.WriteCosts(Console.Out);
Tables.WriteAnswers(Console.Out, Study.Answers());
if (args is [string path])
{
    Picture.Write(path, ("bits of the converter", converter), ("bits of the state words", state), ("bits of the weights of the fit", coefficients));
}

return 0;
