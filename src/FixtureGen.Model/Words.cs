namespace FixtureGen.Model;

/// <summary>The words the contract uses for enums.</summary>
public static class Words
{
    /// <summary>note, warning or error.</summary>
    public static string For(Severity s) =>
        s switch
        {
            Severity.Note => "note",
            Severity.Warning => "warning",
            Severity.Error => "error",
        };

    /// <summary>underside, top or trim; also the middle of a program's file name.</summary>
    public static string For(Setup s) =>
        s switch
        {
            Setup.Underside => "underside",
            Setup.Top => "top",
            Setup.Trim => "trim",
        };

    /// <summary>up, down or straight.</summary>
    public static string For(HelixDirection h) =>
        h switch
        {
            HelixDirection.Up => "up",
            HelixDirection.Down => "down",
            HelixDirection.Straight => "straight",
        };

    /// <summary>slide, lift, tip or stop.</summary>
    public static string For(HoldMode m) =>
        m switch
        {
            HoldMode.Slide => "slide",
            HoldMode.Lift => "lift",
            HoldMode.Stop => "stop",
            HoldMode.Tip => "tip",
        };

    /// <summary>What the part would do, to stand behind "it would".</summary>
    public static string Verb(HoldMode m) =>
        m switch
        {
            HoldMode.Slide => "slide",
            HoldMode.Lift => "lift",
            HoldMode.Stop => "break its stop",
            HoldMode.Tip => "tip",
        };

    /// <summary>pin, slot, tab or wall.</summary>
    public static string For(StopKind k) =>
        k switch
        {
            StopKind.Pin => "pin",
            StopKind.Slot => "slot",
            StopKind.Tab => "tab",
            StopKind.Wall => "wall",
        };

    /// <summary>A kind of tool as tools/ states it.</summary>
    public static string For(ToolKind kind) =>
        kind switch
        {
            ToolKind.EndMill => "end-mill",
            ToolKind.BallMill => "ball-mill",
            ToolKind.FaceMill => "face-mill",
            ToolKind.Drill => "drill",
            ToolKind.Engraver => "engraver",
        };
}
