using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// The errors of a single block that need no state: NISTIR 6556 section 3.3.5, tables 4, 5 and 7, and the kernel's published
/// error list (two words of one group, orphan words, negative numbers, unknown codes).
/// </summary>
internal sealed class BlockRules(Dialect dialect, FindingLog log)
{
    /// <summary>Group 0 codes that use axis words themselves, in tenths.</summary>
    private static readonly int[] AxisUsers = [100, 280, 300, 920];

    /// <summary>False when the block must not be carried out.</summary>
    public bool Check(Block block)
    {
        bool ok = RepeatedLetters(block) & Codes(block) & Groups(block) & Negatives(block);
        return ok && Orphans(block) & PointHabit(block);
    }

    /// <summary>The modal group of a G code in tenths; -1 for one that RS274/NGC and the control do not have.</summary>
    public static int GroupOfG(int tenths, Dialect dialect) =>
        tenths switch
        {
            0 or 10 or 20 or 30 or 382 => 1,
            >= 800 and <= 890 when tenths % 10 == 0 => 1,
            730 when dialect.Control.PeckHighSpeed => 1,
            170 or 180 or 190 => 2,
            900 or 910 => 3,
            911 when dialect.DeclaredG.Contains(911) => 4,
            930 or 940 => 5,
            200 or 210 => 6,
            400 or 410 or 420 => 7,
            430 or 490 => 8,
            980 or 990 => 10,
            540 or 550 or 560 or 570 or 580 or 590 or 591 or 592 or 593 => 12,
            610 or 611 or 640 => 13,
            40 or 100 or 280 or 300 or 530 or 920 or 921 or 922 or 923 => 0,
            _ => -1,
        };

    public static int GroupOfM(int code, Dialect dialect) =>
        code switch
        {
            _ when code == dialect.VacuumOn || code == dialect.VacuumOff || code == dialect.VacuumWait => 20,
            0 or 1 or 2 or 30 => 4,
            60 when dialect.DeclaredM.Contains(code) => 4,
            6 => 6,
            3 or 4 or 5 => 7,
            7 or 8 or 9 when dialect.DeclaredM.Contains(code) => 8,
            48 or 49 when dialect.DeclaredM.Contains(code) => 9,
            _ when dialect.DeclaredM.Contains(code) => 21,
            _ => -1,
        };

    private bool RepeatedLetters(Block block)
    {
        bool ok = true;
        foreach (IGrouping<char, Word> letter in block.Words.GroupBy(w => w.Letter))
        {
            if (letter.Key is not ('G' or 'M') && letter.Count() > 1)
            {
                ok = Refuse(
                    "word-repeated",
                    block,
                    $"{letter.Count()} words {letter.Key} on one line",
                    $"Keep one {letter.Key}"
                );
            }
        }
        return ok;
    }

    private bool Codes(Block block)
    {
        bool ok = true;
        foreach (Word word in block.Words)
        {
            bool whole = Math.Abs((word.Value * 10) - word.Tenths) <= 1e-3;
            if (word.Letter == 'G' && (!whole || word.Value < 0 || GroupOfG(word.Tenths, dialect) < 0))
            {
                ok = Refuse(
                    "unknown-g",
                    block,
                    $"{Echo.Short(word.Text)} is not known to RS274/NGC or to control {dialect.Control.Name}",
                    "Write a G code the control has"
                );
            }
            if (
                word.Letter == 'M'
                && (!whole || word.Value < 0 || word.Tenths % 10 != 0 || GroupOfM(word.Tenths / 10, dialect) < 0)
            )
            {
                ok = Refuse(
                    "unknown-m",
                    block,
                    $"{Echo.Short(word.Text)} is not known to RS274/NGC or to control {dialect.Control.Name}",
                    "Write an M code the control has"
                );
            }
            PathMode(block, word, ref ok);
            if (word.Letter is 'A' or 'B' or 'C')
            {
                ok = Refuse(
                    "rotary-word",
                    block,
                    $"{Echo.Short(word.Text)}: the machine has no rotary axis",
                    "Take the word out"
                );
            }
        }
        return ok;
    }

    /// <summary>How far a control may round corners is the machine's own matter: its lines say it, or nobody does.</summary>
    private void PathMode(Block block, Word word, ref bool ok)
    {
        if (word is { Letter: 'G', Tenths: 610 or 611 or 640 } && !dialect.DeclaredG.Contains(word.Tenths))
        {
            ok = Refuse(
                "path-mode",
                block,
                $"{Echo.Short(word.Text)} changes how the control rounds corners, and control {dialect.Control.Name} declares no such word",
                "Take it out, or write it into the control's safe_start"
            );
        }
    }

    private bool Groups(Block block)
    {
        bool ok = true;
        foreach (
            IGrouping<int, Word> group in block
                .Words.Where(w => w.Letter == 'G')
                .GroupBy(w => GroupOfG(w.Tenths, dialect))
                .Where(g => g.Count() > 1 && g.Key >= 0)
        )
        {
            string words = string.Join(' ', group.Select(w => w.Text));
            ok = Refuse("modal-conflict", block, $"{Echo.Short(words)} belong to one modal group", "Keep one of them");
        }
        foreach (
            IGrouping<int, Word> group in block
                .Words.Where(w => w.Letter == 'M')
                .GroupBy(w => GroupOfM(w.Tenths / 10, dialect))
                .Where(g => g.Count() > 1 && g.Key is >= 0 and < 20)
        )
        {
            string words = string.Join(' ', group.Select(w => w.Text));
            ok = Refuse("modal-conflict", block, $"{Echo.Short(words)} belong to one group", "Keep one of them");
        }
        if (block.Words.Count(w => w.Letter == 'M') > 4)
        {
            ok = Refuse("too-many-m", block, "more than four M words on one line", "Split the line");
        }
        bool axisUser = block.Words.Any(w => w.Letter == 'G' && AxisUsers.Contains(w.Tenths));
        bool motion = block.Words.Any(w => w.Letter == 'G' && GroupOfG(w.Tenths, dialect) == 1 && w.Tenths != 800);
        if (axisUser && motion)
        {
            ok = Refuse("axis-words-twice", block, "two G codes that both use the axis words", "Put them on two lines");
        }
        return ok;
    }

    private bool Negatives(Block block)
    {
        bool ok = true;
        foreach (
            Word word in block.Words.Where(w =>
                w.Value < 0 && w.Letter is 'F' or 'S' or 'T' or 'P' or 'L' or 'D' or 'H'
            )
        )
        {
            ok = Refuse(
                "negative-word",
                block,
                $"{Echo.Short(word.Text)} is negative",
                "Write a number that is not negative"
            );
        }
        foreach (Word word in block.Words.Where(w => w.Letter is 'T' or 'L' or 'D' or 'H'))
        {
            if (Math.Abs(word.Value - Math.Round(word.Value)) > 1e-4)
            {
                ok = Refuse(
                    "integer-wanted",
                    block,
                    $"{Echo.Short(word.Text)} must be a whole number",
                    "Write a whole number"
                );
            }
        }
        return ok;
    }

    private bool Orphans(Block block)
    {
        bool ok = true;
        if (block.Has('D'))
        {
            ok = Refuse("orphan-word", block, "D stands without G41 or G42", "Take it out");
        }
        if (block.Has('H') && !HasG(block, 430))
        {
            ok = Refuse("orphan-word", block, "H stands without G43", "Write G43 with it or take it out");
        }
        if (!block.Has('H') && HasG(block, 430))
        {
            ok = Refuse("length-offset-number", block, "G43 without H", "Write the tool's offset number");
        }
        return ok;
    }

    /// <summary>A control that always wants a point reads X15 as 15 thousandths or refuses it: a lost point is an error.</summary>
    private bool PointHabit(Block block)
    {
        if (dialect.Control.Numbers == DecimalHabit.Shortest)
        {
            return true;
        }
        bool ok = true;
        foreach (Word word in block.Words.Where(w => w.Letter is 'X' or 'Y' or 'Z' or 'I' or 'J' or 'K' or 'R' or 'Q'))
        {
            if (!word.HasPoint)
            {
                ok = Refuse(
                    "decimal-point",
                    block,
                    $"{Echo.Short(word.Text)} is written without a decimal point",
                    "Write the point: without it the control may read thousandths"
                );
            }
        }
        return ok;
    }

    private static bool HasG(Block block, int tenths) => block.Words.Any(w => w.Letter == 'G' && w.Tenths == tenths);

    private bool Refuse(string code, Block block, Text message, Text remedy)
    {
        log.Error(code, block.Line, message, remedy);
        return false;
    }
}
