namespace FixtureGen.App.Layout;

public sealed class LayoutSession
{
    private readonly string p = "";

    public static Stage<LayoutSession> Open(string p) => throw new NotSupportedException(p);

    public LayoutAnswer Answer(string call, System.Text.Json.Nodes.JsonNode? body, string forKey) =>
        LayoutAnswer.Message(404, call + this.p);
}
