namespace FixtureGen.App.Terminal;

/// <summary>Standard output takes no more: its disk is full, or whoever read it has gone.</summary>
internal sealed class OutputLostException(IOException why) : Exception(why.Message, why);
