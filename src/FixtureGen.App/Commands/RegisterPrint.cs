using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary>The register for a person and as JSON.</summary>
internal static class RegisterPrint
{
    /// <summary>A row each revision, its blocks below it where somebody noted anything of them, and the notices that stand.</summary>
    public static void Table(Say say, Register register)
    {
        int width = Math.Max(8, register.Fixtures.Select(f => f.Job.Length).DefaultIfEmpty(0).Max());
        say.Line($"{"job".PadRight(width)}  {"fixture", -8}  rev  trim   top    underside  {"state", -9}  plate");
        foreach (Fixture f in register.Fixtures)
        {
            say.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{f.Job.PadRight(width)}  {f.Id, -8}  {f.Revision, 3}  {f.Program, -5}  {f.Program + 1, -5}  {f.Program + 2, -9}  {RegisterWords.For(f.State), -9}  {f.Plate} {f.PlateRevision}{(f.Trim > 1 ? $"  trim revision {f.Trim}" : "")}"
                )
            );
            Block[] blocks = [.. register.BlocksOf(f.Job, f.Revision)];
            foreach (Block b in blocks.Where(b => blocks.Length > 1 || b.Cycles > 0 || b.LeakPaPerMin > 0))
            {
                say.Line($"{"".PadRight(width)}  {Text(b)}");
            }
        }
        foreach (Notice n in register.Notices.Where(n => n.Answer is NoticeAnswer.Open or NoticeAnswer.Recut))
        {
            say.Line($"{NoticeText.Heading(n)}: {n.What}. {NoticeText.WhatToDo(n)}");
        }
    }

    /// <summary>A line each event, oldest first.</summary>
    public static void History(Say say, Register register)
    {
        say.Line("");
        foreach (RegisterEvent e in register.Events)
        {
            string which =
                e.Job.Length == 0 ? "the library"
                : e.Block > 0 ? $"{e.Job} r{N(e.Revision)} block {N(e.Block)}"
                : e.Revision > 0 ? $"{e.Job} r{N(e.Revision)}"
                : e.Job;
            string amount = e.Amount > 0 ? $" {N(e.Amount)}" : "";
            string why = e.Why.Length > 0 ? $": {e.Why}" : "";
            say.Line($"{N(e.Number), 6}  {e.At}  {e.Who}  {which}  {RegisterWords.For(e.What)}{amount}{why}");
        }
    }

    /// <summary>One object; a register that could not be read has no fixtures.</summary>
    public static string Json(Register register, ImmutableArray<Finding> findings, bool ok) =>
        AppJson.Text(
            new JsonObject
            {
                ["ok"] = ok,
                ["fixtures"] = new JsonArray([.. register.Fixtures.Select(f => (JsonNode)Fixture(register, f))]),
                ["notices"] = NoticeText.Json(register.Notices),
                ["events"] = new JsonArray([.. register.Events.Select(e => (JsonNode)Event(e))]),
                ["findings"] = AppJson.Findings(findings),
            }
        );

    private static JsonObject Fixture(Register register, Fixture f) =>
        new JsonObject
        {
            ["job"] = f.Job,
            ["id"] = f.Id,
            ["revision"] = f.Revision,
            ["trim"] = f.Trim,
            ["programNumber"] = f.Program,
            ["plate"] = f.Plate,
            ["plateRevision"] = f.PlateRevision,
            ["state"] = RegisterWords.For(f.State),
            ["blocks"] = new JsonArray([
                .. register
                    .BlocksOf(f.Job, f.Revision)
                    .Select(b =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["number"] = b.Number,
                                ["state"] = RegisterWords.For(b.State),
                                ["cutAt"] = b.CutAt,
                                ["trim"] = b.Trim,
                                ["cycles"] = b.Cycles,
                                ["cordCycles"] = b.CordCycles,
                                ["leakPaPerMin"] = b.LeakPaPerMin,
                            }
                    ),
            ]),
        };

    private static JsonObject Event(RegisterEvent e) =>
        new JsonObject
        {
            ["number"] = e.Number,
            ["at"] = e.At,
            ["who"] = e.Who,
            ["what"] = RegisterWords.For(e.What),
            ["job"] = e.Job,
            ["revision"] = e.Revision,
            ["block"] = e.Block,
            ["amount"] = e.Amount,
            ["why"] = e.Why,
        };

    private static string Text(Block b) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"  block {b.Number} {RegisterWords.For(b.State)}, {b.Cycles} cycles, {b.CordCycles} since its cord was changed{(b.LeakPaPerMin > 0 ? $", leak {b.LeakPaPerMin} Pa a minute" : "")}"
        );

    private static string N(int value) => value.ToString(CultureInfo.InvariantCulture);
}
