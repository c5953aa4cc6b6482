namespace FixtureGen.App.Records;

/// <summary>A file as it was made for a revision: its name, SHA-256 (hexadecimal in small letters) and length in bytes.</summary>
internal sealed record MadeFile(string Job, int Revision, int Trim, string Name, string Sha256, long Bytes);
