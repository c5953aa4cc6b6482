using FixtureGen.Design.Block;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>Findings about vacuum ports that the job fixes; lengths in mm, plate frame.</summary>
internal static class PortFindings
{
    public static Finding Misplaced(Point2 at, PortLack lack) =>
        new(
            "port-misplaced",
            Severity.Error,
            $"port at {FindingWords.Place(at)}",
            $"the port asked for here is {FindingWords.Mm(lack.ShortBy)} too near {lack.Against} (nearest at {FindingWords.Place(lack.Nearest)})",
            $"move the port by at least {FindingWords.Mm(lack.ShortBy)}, or take its [[port]] out: the program then chooses the place"
        )
        {
            At = at,
        };

    public static Finding OutsideZones(Point2 at, PortLack lack) =>
        new(
            "port-outside-zones",
            Severity.Error,
            $"port at {FindingWords.Place(at)}",
            $"the port asked for here lies in no sealed zone: {FindingWords.Mm(lack.ShortBy)} from where the nearest one can take it",
            $"move the port towards {FindingWords.Place(lack.Nearest)} and {FindingWords.Mm(lack.ShortBy)} on, or take its [[port]] out"
        )
        {
            At = at,
        };

    public static Finding Surplus(Point2 at, int zone, Point2 first) =>
        new(
            "port-surplus",
            Severity.Error,
            $"port at {FindingWords.Place(at)}",
            $"zone {FindingWords.Count(zone)} already has the port asked for at {FindingWords.Place(first)}; a zone is fed by one",
            "take one of the two [[port]] tables out of the job"
        )
        {
            At = at,
        };
}
