namespace FixtureGen.Shop.Reading;

/// <summary>The known word that a mistyped one most likely meant.</summary>
public static class Nearest
{
    /// <summary>The known word with the least edit distance, if at most a third of the letters (and at least two) differ; else null.</summary>
    public static string? Find(string word, IEnumerable<string> known)
    {
        (string Word, int Distance)? best = null;
        foreach (string k in known.Order(StringComparer.Ordinal))
        {
            int d = Distance(word.ToUpperInvariant(), k.ToUpperInvariant());
            if (best is null || d < best.Value.Distance)
            {
                best = (k, d);
            }
        }
        return best is { } b && b.Distance <= Math.Max(2, word.Length / 3) ? b.Word : null;
    }

    /// <summary>Edits (insert, delete, replace, swap of neighbours) that turn one word into the other.</summary>
    public static int Distance(string a, string b)
    {
        int[,] d = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
        {
            for (int j = 0; j <= b.Length; j++)
            {
                d[i, j] = i == 0 || j == 0 ? i + j : Step(d, a, b, i, j);
            }
        }
        return d[a.Length, b.Length];
    }

    private static int Step(int[,] d, string a, string b, int i, int j)
    {
        int cost = a[i - 1] == b[j - 1] ? 0 : 1;
        int least = Math.Min(Math.Min(d[i - 1, j] + 1, d[i, j - 1] + 1), d[i - 1, j - 1] + cost);
        bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
        return swapped ? Math.Min(least, d[i - 2, j - 2] + 1) : least;
    }
}
