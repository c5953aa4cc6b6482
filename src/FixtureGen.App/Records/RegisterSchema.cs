using System.Globalization;

namespace FixtureGen.App.Records;

/// <summary>The statements of the register's database, made from its tables so that no column is said twice.</summary>
internal static class RegisterSchema
{
    /// <summary>Creates every table.</summary>
    public static void Create(Action<string> execute)
    {
        execute("CREATE TABLE meta (key TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL)");
        execute(Create(RegisterTables.Fixtures));
        execute(Create(RegisterTables.Blocks));
        execute(Create(RegisterTables.Files));
        execute(Create(RegisterTables.Notices));
        execute(Create(RegisterTables.Events));
    }

    /// <summary>Inserts a row or puts it in place of the one that its keys name.</summary>
    public static string Put<T>(Table<T> table)
    {
        string columns = string.Join(", ", table.Columns.Select(c => Name(c)));
        string values = string.Join(", ", table.Columns.Select((_, i) => Parameter(i)));
        string changes = string.Join(
            ", ",
            table.Columns.Skip(table.Keys).Select(c => $"{Name(c)} = excluded.{Name(c)}")
        );
        string keys = string.Join(", ", table.Columns.Take(table.Keys).Select(c => Name(c)));
        return $"INSERT INTO {Name(table)} ({columns}) VALUES ({values}) ON CONFLICT ({keys}) DO UPDATE SET {changes}";
    }

    /// <summary>Takes out the row that the keys name.</summary>
    public static string Drop<T>(Table<T> table) =>
        $"DELETE FROM {Name(table)} WHERE "
        + string.Join(" AND ", table.Columns.Take(table.Keys).Select((c, i) => $"{Name(c)} = {Parameter(i)}"));

    /// <summary>Every row, columns in their order.</summary>
    public static string Select<T>(Table<T> table) =>
        $"SELECT {string.Join(", ", table.Columns.Select(c => Name(c)))} FROM {Name(table)}";

    private static string Create<T>(Table<T> table) =>
        $"CREATE TABLE {Name(table)} ("
        + string.Join(", ", table.Columns.Select(c => $"{Name(c)} {(c.IsText ? "TEXT" : "BIGINT")} NOT NULL"))
        + $", PRIMARY KEY ({string.Join(", ", table.Columns.Take(table.Keys).Select(c => Name(c)))}))";

    private static string Name<T>(Table<T> table) => $"\"{table.Name}\"";

    private static string Name<T>(Column<T> column) => $"\"{column.Key}\"";

    private static string Parameter(int index) => string.Create(CultureInfo.InvariantCulture, $"@p{index}");
}
