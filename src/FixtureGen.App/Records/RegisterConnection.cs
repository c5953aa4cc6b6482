using System.Data.Common;
using Microsoft.Data.Sqlite;

namespace FixtureGen.App.Records;

/// <summary>Opens the register's database: the one place that names its engine. Another engine (the statements of RegisterSchema are also PostgreSQL's) is another way to open, to look and to guard here.</summary>
internal static class RegisterConnection
{
    /// <summary>For writing, created where there is none.</summary>
    /// <exception cref="DbException">It cannot be opened.</exception>
    public static DbConnection ForWriting(string path) => Open(path, SqliteOpenMode.ReadWriteCreate);

    /// <summary>For reading; what a killed writer left half done is undone first, where the folder may be written.</summary>
    /// <exception cref="DbException">It cannot be opened.</exception>
    public static DbConnection ForReading(string path)
    {
        try
        {
            return Open(path, SqliteOpenMode.ReadWrite);
        }
        catch (SqliteException)
        {
            return Open(path, SqliteOpenMode.ReadOnly);
        }
    }

    /// <summary>A transaction that sees one state of the database and takes no lock for writing.</summary>
    public static DbTransaction BeginReading(DbConnection connection) =>
        ((SqliteConnection)connection).BeginTransaction(deferred: true);

    /// <summary>True where the file is no database or a spoilt one (SQLITE_CORRUPT 11, SQLITE_NOTADB 26), or lacks what it must have (SQLITE_ERROR 1).</summary>
    public static bool IsDamage(DbException e) => e is SqliteException { SqliteErrorCode: 1 or 11 or 26 };

    /// <summary>False for a database to which nothing was ever written.</summary>
    public static bool HasTables(DbConnection connection, DbTransaction transaction)
    {
        using DbCommand count = connection.CreateCommand();
        count.Transaction = transaction;
        count.CommandText = "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'meta'";
        return count.ExecuteScalar() is long and > 0;
    }

    /// <summary>Events can be added and neither changed nor dropped.</summary>
    public static void GuardEvents(Action<string> execute)
    {
        foreach (string change in (string[])["UPDATE", "DELETE"])
        {
            execute(
                $"CREATE TRIGGER event_{change} BEFORE {change} ON event BEGIN SELECT RAISE(ABORT, 'events are only added to'); END"
            );
        }
    }

    private static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        SqliteConnection connection = new(
            new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Mode = mode,
                Pooling = false,
                DefaultTimeout = 10,
            }.ConnectionString
        );
        try
        {
            connection.Open();
            using SqliteCommand safe = connection.CreateCommand();
            // each commit is on the disk before it is told as done (EXTRA syncs the folder of the journal too)
            safe.CommandText = "PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA;";
            safe.ExecuteNonQuery();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
