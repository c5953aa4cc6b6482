using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;

namespace FixtureGen.App.Records;

/// <summary>
/// The register in a database, by statements that SQLite and PostgreSQL both take: which of them it is, is decided by whoever
/// opens the connection. Rows are text and whole numbers only; times are ISO 8601 text, so that none depends on an engine.
/// </summary>
internal static class RegisterDatabase
{
    private const string Format = "2";

    /// <summary>What the database says of itself: the hash of the readable copy that belongs to it, and of the one before.</summary>
    internal sealed record Stored(Register Register, string CopyHash, string CopyHashBefore);

    /// <summary>All of it, as one transaction saw it; null where nothing was ever written.</summary>
    /// <exception cref="DbException">It cannot be read.</exception>
    /// <exception cref="InvalidDataException">It holds what no version of this program writes.</exception>
    public static Stored? Read(DbConnection connection)
    {
        using DbTransaction transaction = RegisterConnection.BeginReading(connection);
        if (!RegisterConnection.HasTables(connection, transaction))
        {
            return null;
        }
        string format = Meta(connection, transaction, "format");
        if (format != Format)
        {
            throw new InvalidDataException($"its format is {format}; this version reads {Format}");
        }
        Register register = new()
        {
            Fixtures =
            [
                .. Rows(connection, transaction, RegisterTables.Fixtures)
                    .OrderBy(f => f.Job, StringComparer.Ordinal)
                    .ThenBy(f => f.Revision),
            ],
            Blocks =
            [
                .. Rows(connection, transaction, RegisterTables.Blocks)
                    .OrderBy(b => b.Job, StringComparer.Ordinal)
                    .ThenBy(b => b.Revision)
                    .ThenBy(b => b.Number),
            ],
            Files =
            [
                .. Rows(connection, transaction, RegisterTables.Files)
                    .OrderBy(m => m.Job, StringComparer.Ordinal)
                    .ThenBy(m => m.Revision)
                    .ThenBy(m => m.Trim)
                    .ThenBy(m => m.Name, StringComparer.Ordinal),
            ],
            Notices = [.. Rows(connection, transaction, RegisterTables.Notices).OrderBy(n => n.Number)],
            Events = [.. Rows(connection, transaction, RegisterTables.Events).OrderBy(e => e.Number)],
        };
        return new(
            register,
            Meta(connection, transaction, "copy_hash"),
            Meta(connection, transaction, "copy_hash_before")
        );
    }

    /// <summary>Brings the database from what it holds to <paramref name="after"/>, whole or not at all.</summary>
    /// <param name="connection">Open for writing.</param>
    /// <param name="before">What it holds; null for a new one.</param>
    /// <param name="after">What it shall hold.</param>
    /// <param name="copyHash">Of the readable copy of <paramref name="after"/>.</param>
    /// <exception cref="DbException">It cannot be written; nothing was changed.</exception>
    public static void Write(DbConnection connection, Stored? before, Register after, string copyHash)
    {
        using DbTransaction transaction = connection.BeginTransaction();
        if (before is null)
        {
            RegisterSchema.Create(sql => Execute(connection, transaction, sql));
            RegisterConnection.GuardEvents(sql => Execute(connection, transaction, sql));
        }
        Register was = before?.Register ?? Register.Empty;
        Change(connection, transaction, RegisterTables.Fixtures, was.Fixtures, after.Fixtures);
        Change(connection, transaction, RegisterTables.Blocks, was.Blocks, after.Blocks);
        Change(connection, transaction, RegisterTables.Files, was.Files, after.Files);
        Change(connection, transaction, RegisterTables.Notices, was.Notices, after.Notices);
        Change(connection, transaction, RegisterTables.Events, was.Events, after.Events);
        PutMeta(connection, transaction, "format", Format);
        PutMeta(connection, transaction, "copy_hash_before", before?.CopyHash ?? "");
        PutMeta(connection, transaction, "copy_hash", copyHash);
        transaction.Commit();
    }

    private static void Change<T>(
        DbConnection connection,
        DbTransaction transaction,
        Table<T> table,
        ImmutableArray<T> before,
        ImmutableArray<T> after
    )
        where T : notnull
    {
        Dictionary<string, T> was = before.ToDictionary(table.KeyFor, StringComparer.Ordinal);
        HashSet<string> kept = new(StringComparer.Ordinal);
        using DbCommand put = Command(connection, transaction, RegisterSchema.Put(table));
        foreach (T row in after)
        {
            string key = table.KeyFor(row);
            kept.Add(key);
            if (!was.TryGetValue(key, out T? old) || !old.Equals(row))
            {
                Bind(put, table.Columns.Select(c => c.Get(row)));
                put.ExecuteNonQuery();
            }
        }
        using DbCommand drop = Command(connection, transaction, RegisterSchema.Drop(table));
        foreach ((string key, T row) in was)
        {
            if (!kept.Contains(key))
            {
                Bind(drop, table.Columns.Take(table.Keys).Select(c => c.Get(row)));
                drop.ExecuteNonQuery();
            }
        }
    }

    private static List<T> Rows<T>(DbConnection connection, DbTransaction transaction, Table<T> table)
    {
        using DbCommand select = Command(connection, transaction, RegisterSchema.Select(table));
        using DbDataReader reader = select.ExecuteReader();
        List<T> rows = [];
        while (reader.Read())
        {
            Dictionary<string, object> values = new(StringComparer.Ordinal);
            for (int i = 0; i < table.Columns.Length; i++)
            {
                Column<T> column = table.Columns[i];
                object value = column.IsText ? reader.GetString(i) : reader.GetInt64(i);
                values[column.Key] = column.Wrong(value) is { } wrong
                    ? throw new InvalidDataException($"{table.Name}: {wrong}")
                    : value;
            }
            rows.Add(table.Make(new Row(values)));
        }
        return rows;
    }

    private static string Meta(DbConnection connection, DbTransaction transaction, string key)
    {
        using DbCommand select = Command(connection, transaction, "SELECT value FROM meta WHERE key = @p0");
        Bind(select, [key]);
        return select.ExecuteScalar() as string ?? "";
    }

    private static void PutMeta(DbConnection connection, DbTransaction transaction, string key, string value)
    {
        using DbCommand put = Command(
            connection,
            transaction,
            "INSERT INTO meta (key, value) VALUES (@p0, @p1) ON CONFLICT (key) DO UPDATE SET value = excluded.value"
        );
        Bind(put, [key, value]);
        put.ExecuteNonQuery();
    }

    private static void Execute(DbConnection connection, DbTransaction transaction, string sql)
    {
        using DbCommand command = Command(connection, transaction, sql);
        command.ExecuteNonQuery();
    }

    private static DbCommand Command(DbConnection connection, DbTransaction transaction, string sql)
    {
        DbCommand command = connection.CreateCommand();
        command.Transaction = transaction;
#pragma warning disable CA2100 // Every word of it is this program's own: names of its tables and columns, values as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command;
    }

    private static void Bind(DbCommand command, IEnumerable<object> values)
    {
        command.Parameters.Clear();
        foreach (object value in values)
        {
            DbParameter parameter = command.CreateParameter();
            parameter.ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{command.Parameters.Count}");
            parameter.Value = value;
            command.Parameters.Add(parameter);
        }
    }
}
