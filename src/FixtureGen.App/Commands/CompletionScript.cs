using System.Text;

namespace FixtureGen.App.Commands;

/// <summary>Completion scripts of the shells; where a file is wanted, the shell's own file names are offered.</summary>
internal static class CompletionScript
{
    /// <summary>To be sourced; nothing but bash's own compgen and complete is needed.</summary>
    public static string Bash(IReadOnlyList<CompletedCommand> commands)
    {
        StringBuilder s = new();
        s.Append("# source <(fixturegen completion bash)\n_fixturegen() {\n");
        s.Append("  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n");
        s.Append("  if [ \"$COMP_CWORD\" -eq 1 ]; then\n");
        s.Append(
            $"    COMPREPLY=($(compgen -W \"{Joined(commands.Select(c => c.Name))} --help --version\" -- \"$word\"))\n"
        );
        s.Append("    return\n  fi\n  local options=\"\" values=\"\" files=\"\"\n  case \"${COMP_WORDS[1]}\" in\n");
        foreach (CompletedCommand c in commands)
        {
            string options = Joined(c.Options.SelectMany(o => o.Names));
            s.Append($"    {c.Name}) options=\"{options}\" {BashWords(c.Values, c.TakesFiles)} ;;\n");
        }
        s.Append("  esac\n  case \"${COMP_WORDS[1]} $before\" in\n");
        foreach (CompletedCommand c in commands)
        {
            foreach (CompletedOption o in c.Options.Where(o => o.TakesValue))
            {
                string cases = string.Join('|', o.Names.Select(n => $"\"{c.Name} {n}\""));
                s.Append($"    {cases}) options=\"\" {BashWords(o.Values, o.TakesFile)} ;;\n");
            }
        }
        s.Append("  esac\n  if [ \"${word#-}\" != \"$word\" ]; then\n");
        s.Append("    COMPREPLY=($(compgen -W \"$options\" -- \"$word\"))\n    return\n  fi\n");
        s.Append("  COMPREPLY=($(compgen -W \"$values\" -- \"$word\"))\n");
        s.Append("  if [ -n \"$files\" ]; then\n    local file\n    compopt -o filenames 2>/dev/null\n");
        s.Append("    while IFS= read -r file; do COMPREPLY+=(\"$file\"); done < <(compgen -f -- \"$word\")\n");
        s.Append("  fi\n}\ncomplete -F _fixturegen fixturegen\n");
        return s.ToString();
    }

    /// <summary>To be sourced after compinit.</summary>
    public static string Zsh(IReadOnlyList<CompletedCommand> commands)
    {
        StringBuilder s = new();
        s.Append("#compdef fixturegen\n# source <(fixturegen completion zsh), after compinit\n_fixturegen() {\n");
        s.Append("  local -a commands=(\n");
        foreach (CompletedCommand c in commands)
        {
            s.Append($"    {Quoted($"{c.Name}:{c.Says}")}\n");
        }
        s.Append("  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n");
        s.Append("  local chosen=${words[2]}\n  shift words\n  (( CURRENT-- ))\n  case $chosen in\n");
        foreach (CompletedCommand c in commands)
        {
            s.Append($"    {c.Name}) _arguments");
            foreach (CompletedOption o in c.Options)
            {
                foreach (string name in o.Names)
                {
                    s.Append(' ').Append(Quoted($"{name}[{InBrackets(o.Says)}]{ZshValue(o)}"));
                }
            }
            string argument =
                c.Values.Length > 0 ? $"*: :({Joined(c.Values)})"
                : c.TakesFiles ? "*:file:_files"
                : "";
            s.Append(argument.Length > 0 ? " " + Quoted(argument) : "").Append(" ;;\n");
        }
        s.Append("  esac\n}\ncompdef _fixturegen fixturegen\n");
        return s.ToString();
    }

    /// <summary>To be piped into source.</summary>
    public static string Fish(IReadOnlyList<CompletedCommand> commands)
    {
        StringBuilder s = new();
        s.Append("# fixturegen completion fish | source\n");
        foreach (CompletedCommand c in commands)
        {
            s.Append($"complete -c fixturegen -f -n __fish_use_subcommand -a {c.Name} -d {Quoted(c.Says)}\n");
            string within = $"complete -c fixturegen -n '__fish_seen_subcommand_from {c.Name}'";
            if (!c.TakesFiles)
            {
                string values = c.Values.Length > 0 ? $" -a {Quoted(Joined(c.Values))}" : "";
                s.Append($"{within} -f{values}\n");
            }
            foreach (CompletedOption o in c.Options)
            {
                string names = string.Concat(
                    o.Names.Select(n =>
                        n.StartsWith("--", StringComparison.Ordinal) ? $" -l {n[2..]}"
                        : n.StartsWith('-') ? $" -s {n[1..]}"
                        : ""
                    )
                );
                string value =
                    !o.TakesValue ? ""
                    : o.Values.Length > 0 ? $" -x -a {Quoted(Joined(o.Values))}"
                    : o.TakesFile ? " -r -F"
                    : " -x";
                s.Append($"{within}{names}{value} -d {Quoted(o.Says)}\n");
            }
        }
        return s.ToString();
    }

    private static string BashWords(IEnumerable<string> values, bool files) =>
        $"values=\"{Joined(values)}\" files={(files ? "yes" : "\"\"")}";

    private static string ZshValue(CompletedOption o) =>
        !o.TakesValue ? ""
        : o.Values.Length > 0 ? $":value:({Joined(o.Values)})"
        : o.TakesFile ? ":value:_files"
        : ":value: ";

    private static string Joined(IEnumerable<string> words) => string.Join(' ', words);

    private static string InBrackets(string text) =>
        text.Replace("[", "(", StringComparison.Ordinal)
            .Replace("]", ")", StringComparison.Ordinal)
            .Replace(":", "\\:", StringComparison.Ordinal);

    private static string Quoted(string text) => "'" + text.Replace("'", "'\\''", StringComparison.Ordinal) + "'";
}
