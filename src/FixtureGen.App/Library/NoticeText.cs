using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Records;

namespace FixtureGen.App.Library;

/// <summary>Notices in words, the same on page, terminal and paper.</summary>
internal static class NoticeText
{
    /// <summary>Which block it is about.</summary>
    public static string Heading(Notice n) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{(n.Answer == NoticeAnswer.Recut ? "Recut" : "SCRAP")} the block of {n.Job} revision {n.Revision} (notice {n.Number}, {n.At})"
        );

    /// <summary>What is to be done about it.</summary>
    public static string WhatToDo(Notice n) =>
        n.Answer == NoticeAnswer.Recut
            ? $"{n.By} will cut it anew ({n.Reason}): scrap the old block then."
            : $"Until then its old trim program is its only valid pair. Answer it: fixturegen register --scrapped {n.Job}, --recut {n.Job} or --accept {n.Job}, with --why.";

    /// <summary>As the change report and the register have them.</summary>
    public static JsonArray Json(ImmutableArray<Notice> notices) =>
        new([
            .. notices.Select(n =>
                (JsonNode)
                    new JsonObject
                    {
                        ["number"] = n.Number,
                        ["at"] = n.At,
                        ["job"] = n.Job,
                        ["revision"] = n.Revision,
                        ["what"] = n.What,
                        ["answer"] = RegisterWords.For(n.Answer),
                        ["by"] = n.By,
                        ["reason"] = n.Reason,
                        ["answeredAt"] = n.AnsweredAt,
                    }
            ),
        ]);
}
