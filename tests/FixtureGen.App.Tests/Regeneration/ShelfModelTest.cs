using System.Globalization;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>
/// Random commands against the register and a small model of it: the same blocks, the same refusals, and whatever is read from
/// the disk, by database or copy, is what was written. FIXTUREGEN_STEPS says how many (1,500 by default).
/// </summary>
public sealed class ShelfModelTest
{
    private static readonly string[] Commands =
    [
        "make",
        "cut",
        "cut",
        "spare",
        "worn",
        "scrapped",
        "cycles",
        "cord",
        "leak",
        "undo",
    ];

    [Fact]
    public void The_register_does_what_the_model_does()
    {
        int steps = int.Parse(
            Environment.GetEnvironmentVariable("FIXTUREGEN_STEPS") ?? "1500",
            CultureInfo.InvariantCulture
        );
        using ShelfLibrary library = new();
        ShelfModel model = new();
        Random random = new(20261130);
        int done = 0;
        for (int step = 0; step < steps; step++)
        {
            string job = "job" + random.Next(3).ToString(CultureInfo.InvariantCulture);
            string command = Commands[random.Next(Commands.Length)];
            int amount = random.Next(1, 500);
            if (command == "make")
            {
                // a next revision is made where the newest has a block; a planned one gives way and is no other revision here
                if (
                    model.Newest(job) == 0
                    || model.Blocks.Any(b =>
                        b.StartsWith(Invariant($"{job} {model.Newest(job)} "), StringComparison.Ordinal)
                    )
                )
                {
                    model.Make(job);
                    library.Make(job, model.Newest(job), 1000 + (10 * step));
                }
                continue;
            }
            bool expected = command == "undo" ? model.Undo() : model.Do(command, job, amount);
            IReadOnlyList<Finding> findings = library.Change(r => Apply(r, library.Jobs, command, job, amount));
            Assert.True(expected == (findings.Count == 0), Invariant($"step {step}: {command} {job}"));
            done += expected ? 1 : 0;
            if (step % 40 == 0)
            {
                File.Delete(step % 80 == 0 ? library.Database : library.Copy);
            }
            Assert.Equal(model.Blocks, ShelfModel.Words(library.Read()));
        }
        Assert.InRange(done, steps / 4, steps);
        Register end = library.Read();
        Assert.Equal(Enumerable.Range(1, end.Events.Length), end.Events.Select(e => e.Number));
    }

    private static Stage<Register> Apply(Register register, string folder, string command, string job, int amount)
    {
        Occasion now = ShelfLibrary.At(1);
        Noting? noting = command switch
        {
            "cut" => new(job, Happening.Cut),
            "spare" => new(job, Happening.Cut) { Spare = true },
            "worn" => new(job, Happening.Worn),
            "scrapped" => new(job, Happening.Scrapped),
            "cycles" => new(job, Happening.Cycles) { Amount = amount },
            "cord" => new(job, Happening.Cord),
            "leak" => new(job, Happening.Leak) { Amount = amount },
            _ => null,
        };
        return noting is null ? Undo.Last(register, folder, now) : ShelfEvents.Apply(register, folder, noting, now);
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
