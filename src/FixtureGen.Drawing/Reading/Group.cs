namespace FixtureGen.Drawing.Reading;

/// <summary>One group of a DXF file: its code and where its value stands in the file's bytes. Line is the value's line in a text file, its byte in a binary one.</summary>
internal readonly record struct Group(int Code, int Start, int Length, int Line);

/// <summary>How a group's value is written, by its code (DXF Reference, Group Code Value Types).</summary>
internal enum ValueKind
{
    Text,
    Real,
    Int16,
    Int32,
    Int64,
    Bool,
    Chunk,
}

internal static class ValueKinds
{
    /// <summary>The kind that the reference gives to a code; null for a code that it does not know.</summary>
    public static ValueKind? ForCode(int code) =>
        code switch
        {
            >= 0 and <= 9 => ValueKind.Text,
            >= 10 and <= 59 => ValueKind.Real,
            >= 60 and <= 79 => ValueKind.Int16,
            >= 90 and <= 99 => ValueKind.Int32,
            >= 100 and <= 109 => ValueKind.Text,
            >= 110 and <= 149 => ValueKind.Real,
            >= 160 and <= 169 => ValueKind.Int64,
            >= 170 and <= 179 => ValueKind.Int16,
            >= 210 and <= 239 => ValueKind.Real,
            >= 270 and <= 289 => ValueKind.Int16,
            >= 290 and <= 299 => ValueKind.Bool,
            >= 300 and <= 309 => ValueKind.Text,
            >= 310 and <= 319 => ValueKind.Chunk,
            >= 320 and <= 369 => ValueKind.Text,
            >= 370 and <= 389 => ValueKind.Int16,
            >= 390 and <= 399 => ValueKind.Text,
            >= 400 and <= 409 => ValueKind.Int16,
            >= 410 and <= 419 => ValueKind.Text,
            >= 420 and <= 429 => ValueKind.Int32,
            >= 430 and <= 439 => ValueKind.Text,
            >= 440 and <= 459 => ValueKind.Int32,
            >= 460 and <= 469 => ValueKind.Real,
            >= 470 and <= 481 => ValueKind.Text,
            999 => ValueKind.Text,
            1004 => ValueKind.Chunk,
            >= 1000 and <= 1009 => ValueKind.Text,
            >= 1010 and <= 1059 => ValueKind.Real,
            >= 1060 and <= 1070 => ValueKind.Int16,
            1071 => ValueKind.Int32,
            _ => null,
        };
}
