using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>What holds the shell and which low hold is accepted: a word at the top, <c>hold = "magnets"</c>, or the table [hold] with <c>by</c>.</summary>
internal readonly record struct JobHold(HoldBy By, string AcceptLow)
{
    private static readonly (string Word, HoldBy By)[] Words = [("vacuum", HoldBy.Vacuum), ("magnets", HoldBy.Magnets)];

    public static JobHold Read(TableReader top)
    {
        if (top.Table.Find("hold")?.Value is TomlString)
        {
            return new JobHold(top.Choice("hold", Words), "");
        }
        TableReader? t = top.InnerOrNull("hold");
        HoldBy by = t?.ChoiceOrNull("by", Words) ?? HoldBy.Vacuum;
        string reason = t?.TextOr("accept_low_hold", "") ?? "";
        t?.Close();
        return new JobHold(by, string.Join(' ', reason.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)));
    }

    /// <summary>What a job says of a seal that a fixture held by magnets does not have.</summary>
    public void Contradict(TableReader top, int magnets, bool ports, SkirtHold skirt)
    {
        if (By != HoldBy.Magnets)
        {
            return;
        }
        if (top.Table.Find("shop")?.Value is TomlTable shop && shop.Find("gasket") is not null)
        {
            Say(top, "hold", "names a gasket under [shop]", "take gasket out of [shop]");
        }
        if (ports)
        {
            Say(top, "port", "fixes a vacuum port", "take the [[port]] tables out");
        }
        if (skirt == SkirtHold.SealedLand)
        {
            Say(top, "skirt", "holds the skirt by a sealed land", "hold it by tabs, clamps or none");
        }
        if (magnets == 0)
        {
            Say(top, "magnets", "wants no magnets (count 0)", "leave count out, so that as many as hold are chosen");
        }
    }

    private static void Say(TableReader top, string key, string what, string instead) =>
        top.Contradict(
            key,
            $"The job is held by magnets alone and {what}: one of the two is wrong.",
            $"{char.ToUpperInvariant(instead[0])}{instead[1..]}, or hold the shell by vacuum."
        );
}
