using System.ComponentModel;
using System.Diagnostics;
using System.Net;
using System.Text;

namespace FixtureGen.App.Page.Serving;

/// <summary>
/// Opens the page in the user's browser without its token among the words of a command line, which every user of the machine may
/// read: the browser is given a file that only this user may read and that leads on to the page. The file goes with the program.
/// </summary>
internal sealed class BrowserStart : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("fixturegen-open-").FullName;

    /// <summary>Null when the browser was started, else why not, for the person.</summary>
    public string? Open(string address)
    {
        string file = Path.Combine(_folder, "open.html");
        string to = WebUtility.HtmlEncode(address);
        try
        {
            FileStreamOptions options = new() { Mode = FileMode.Create, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }
            using (FileStream stream = new(file, options))
            {
                stream.Write(
                    Encoding.UTF8.GetBytes(
                        $"<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>FixtureGen</title><meta http-equiv=\"refresh\" content=\"0; url={to}\"><p><a href=\"{to}\">Open the page</a></p></html>\n"
                    )
                );
            }
            using Process? browser = Process.Start(new ProcessStartInfo(file) { UseShellExecute = true });
            return null;
        }
        catch (Exception e) when (e is Win32Exception or IOException or UnauthorizedAccessException)
        {
            return e.Message;
        }
    }

    /// <summary>Takes the file away.</summary>
    public void Dispose()
    {
        try
        {
            Directory.Delete(_folder, recursive: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // the token in it is worth nothing once the program has ended
        }
    }
}
