// SPDX-License-Identifier: MIT
using SensorSim.WordLengths;

// Prints the tables of docs on word lengths; with paths that end in .png or .svg draws their pictures as well: beats and pulses, movement.
if (args.Length > 2)
{
    Console.Error.WriteLine("usage: SensorSim.WordLengths [PICTURE.png [MOVEMENT.png]]");
    return 2;
}

CancellerRow[] functions = [.. Enumerable.Range(6, 16).Select(MovementStudy.Functions)];
CancellerRow[] weights = [.. Enumerable.Range(9, 23).Select(MovementStudy.Weights)];
SpectrumRow[] samples = [.. Enumerable.Range(2, 14).Select(MovementStudy.Samples)];
SpectrumRow[] sines = [.. Enumerable.Range(3, 14).Select(MovementStudy.Sines)];
SpectrumRow[] sums = [.. Enumerable.Range(10, 19).Select(MovementStudy.Sums)];
SpectrumRow[] powers = [.. Enumerable.Range(1, 24).Select(MovementStudy.Powers)];
MovementTables.WriteShapes(Console.Out);
MovementTables.WriteStages(Console.Out);
MovementTables.Write(Console.Out, "Canceller: functions of the reference", functions.Append(MovementStudy.Functions(0)));
MovementTables.Write(Console.Out, "Canceller: weights", weights.Append(MovementStudy.Weights(0)));
MovementTables.Write(Console.Out, "Spectrum: samples held", samples.Append(MovementStudy.Samples(0)));
MovementTables.Write(Console.Out, "Spectrum: window, sines and cosines", sines);
MovementTables.Write(Console.Out, "Spectrum: words of the transform", sums);
MovementTables.Write(Console.Out, "Spectrum: powers", powers);
if (args is [_, string movement])
{
    MovementPicture.Write(movement, functions, weights, [("samples held", samples), ("sines", sines), ("words of the transform", sums), ("powers", powers)]);
}

StudyRow[] converter = [.. Enumerable.Range(5, 20).Select(Study.Converter)];
StudyRow[] state = [.. Enumerable.Range(5, 20).Select(Study.State)];
StudyRow[] coefficients = [.. Enumerable.Range(4, 13).Select(Study.Coefficients)];
Tables.Write(Console.Out, "Bits of the converter (the fixed-point library behind it)", converter);
Tables.Write(Console.Out, "Bits of the state words (twin)", state.Append(Study.Doubles()));
Tables.Write(Console.Out, "Bits of the weights of the cubic fit (twin)", coefficients);
Tables.WriteCosts(Console.Out);
GateTables.WriteRoom(Console.Out);
GateTables.WriteGates(Console.Out);
Tables.WriteAnswers(Console.Out, Study.Answers());
if (args is [string path, ..])
{
    Picture.Write(path, ("bits of the converter", converter), ("bits of the state words", state), ("bits of the weights of the fit", coefficients));
}

return 0;
