using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json.Serialization.Metadata;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Jobs;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Overview;
using FixtureGen.App.Page.Play;
using FixtureGen.App.Page.Serving;
using FixtureGen.App.Page.ShopDesk;
using FixtureGen.Drawing;
using FixtureGen.Shop.Jobs;
using FixtureGen.Verify;
using Microsoft.AspNetCore.Http;

namespace FixtureGen.App.Page;

/// <summary>The page's questions and who answers each. A job is named in the address as <c>job</c>, by its name in the list.</summary>
internal sealed class WorkPage : IAsyncDisposable
{
    /// <summary>The judge reads no longer program; a character takes four bytes at the most.</summary>
    private const long MostProgramBytes = 4L * Verifier.MostCharacters;

    private readonly PageHost _host;
    private readonly WorkFolder _work;
    private readonly RegenerationRun _run;
    private readonly ConcurrentDictionary<string, PlaySession> _played = new(StringComparer.Ordinal);

    /// <summary>A page that does not listen yet.</summary>
    /// <param name="work">What it works on.</param>
    /// <param name="port">On 127.0.0.1; 0 picks a free one.</param>
    /// <param name="faults">Where what nobody expected is written.</param>
    /// <param name="before">Called with the name of each question before it is answered.</param>
    public WorkPage(WorkFolder work, int port, FaultLog faults, Action<string> before)
    {
        _work = work;
        _host = new PageHost(port, faults, before);
        _run = new RegenerationRun(work.Folder, faults);
        AskOfLayout();
        AskOfLibrary();
        AskOfJobs();
        AskOfPlay();
        AskOfShop();
    }

    /// <summary>The full address with its token; known once started.</summary>
    public string Address => _host.Address;

    /// <summary>Every question by its name, and whether it carries a body of JSON.</summary>
    public IReadOnlyList<(string Name, bool Json)> Questions => _host.Questions;

    /// <summary>Begins to listen.</summary>
    /// <exception cref="IOException">The port is taken.</exception>
    /// <exception cref="System.Net.Sockets.SocketException">The port may not be used, as one below 1024.</exception>
    public Task StartAsync() => _host.StartAsync();

    /// <summary>Returns when the run is stopped: Ctrl-C, or the token.</summary>
    public Task WaitAsync(CancellationToken stop) => _host.WaitAsync(stop);

    /// <summary>Stops listening.</summary>
    public async ValueTask DisposeAsync()
    {
        await _host.DisposeAsync().ConfigureAwait(false);
        _run.Dispose();
    }

    private static string Job(HttpRequest request) => request.Query["job"].ToString();

    /// <summary>The path of the job that a request names, or 404.</summary>
    private PageAnswer OfJob(HttpRequest request, Func<string, PageAnswer> answer) =>
        _work.Find(Job(request)) is { } path ? answer(path) : WorkFolder.NoSuchJob(Job(request));

    private void AskOfLibrary()
    {
        _host.Get("home", _ => _work.Home());
        _host.Get("library", _ => _work.Library(_run.Now));
        _host.Get("run", _ => _run.Answer());
        _host.Post("regenerate", OverviewJson.Default.RegenerateQuestion, (_, q) => _run.Start(q));
        _host.Post("cancel", OverviewJson.Default.CancelQuestion, (_, _) => _run.Cancel());
        _host.Post("note", OverviewJson.Default.NoteQuestion, (r, q) => OfJob(r, job => RegisterDesk.Note(job, q)));
        _host.Get("outputs", r => OfJob(r, Outputs.List));
        _host.Get("output", r => OfJob(r, job => Outputs.Read(job, r.Query["name"].ToString())));
        _host.Get("outputs.zip", r => OfJob(r, Outputs.Archive));
    }

    private void AskOfJobs()
    {
        PageAnswer OnForm(HttpRequest request, Func<JobForm, PageAnswer> answer) =>
            OfJob(request, path => answer(new JobForm(path, _work.Name(path))));
        NewFixture fresh = new(_work.NewJobs(), _work.Folder);
        _host.PostFile(
            "drawing",
            DxfReader.MostBytes,
            (r, bytes) => fresh.Look(bytes, r.Query["name"].ToString(), r.Query["unit"].ToString())
        );
        _host.PostFile(
            "new",
            DxfReader.MostBytes,
            (r, bytes) =>
            {
                string Said(string key) => r.Query[key].ToString().Trim();
                JobAnswers answers = new(Said("shell"), Said("thickness"), Said("slack"), Said("locator"), Said("unit"))
                {
                    SmallHoles = Said("holes"),
                    CornerLeft = Said("corner"),
                };
                return fresh.Write(bytes, Said("name"), answers);
            }
        );
        _host.Get("form", r => OnForm(r, f => f.Read()));
        _host.Post("form-check", JobsJson.Default.FormQuestion, (r, q) => OnForm(r, f => f.Check(q)));
        _host.Post("form-save", JobsJson.Default.FormQuestion, (r, q) => OnForm(r, f => f.Save(q)));
    }

    private void AskOfShop()
    {
        ShopDrawer shop = new(_work.Folder, _work.Jobs, _work.Name, _run);
        _host.Get("shop", _ => shop.List());
        _host.Get("shop-file", r => shop.Read(r.Query["kind"].ToString(), r.Query["name"].ToString()));
        _host.Get("shop-pulse", r => shop.Pulse(r.Query["kind"].ToString(), r.Query["name"].ToString()));
        _host.Post("shop-edit", ShopJson.Default.ShopEditQuestion, (_, q) => shop.Edit(q));
        _host.Post("shop-save", ShopJson.Default.ShopSaveQuestion, (_, q) => shop.Save(q));
        _host.Post("shop-trial", ShopJson.Default.ShopTrialQuestion, (_, q) => shop.Try(q));
        _host.Post("shop-begin", ShopJson.Default.BeginQuestion, (_, _) => _work.BeginShop());
    }

    private void AskOfPlay()
    {
        PageAnswer OnPlay(HttpRequest request, Func<PlaySession, string, PageAnswer> answer) =>
            OfJob(
                request,
                path => answer(_played.GetOrAdd(path, p => new PlaySession(p)), request.Query["name"].ToString())
            );
        _host.PostFile("play", MostProgramBytes, (r, bytes) => OnPlay(r, (s, name) => s.Play(name, bytes)));
        _host.PostFile(
            "carved",
            MostProgramBytes,
            (r, bytes) =>
                int.TryParse(r.Query["line"], NumberStyles.None, CultureInfo.InvariantCulture, out int line)
                    ? OnPlay(r, (s, name) => s.Carve(name, bytes, line, r.Query["setup"].ToString()))
                    : PageAnswer.NotUnderstood([RequestFindings.NotALine(r.Query["line"].ToString())])
        );
    }

    private void AskOfLayout()
    {
        void Get(string name, Func<LayoutSession, PageAnswer> answer) =>
            _host.Get(name, request => _work.WithLayout(Job(request), answer));
        void Post<T>(string name, JsonTypeInfo<T> type, Func<LayoutSession, T, PageAnswer> answer)
            where T : class =>
            _host.Post(name, type, (request, asked) => _work.WithLayout(Job(request), s => answer(s, asked)));
        Get("state", s => s.State());
        Get("pulse", s => s.Pulse());
        Get("progress", s => s.Progress());
        _host.Get(
            "block.png",
            request =>
                LayoutPicture.Asked(
                    request.Query["for"].ToString(),
                    q => _work.WithLayout(Job(request), s => s.Block(q))
                )
        );
        Post<LayoutQuestion>("try", LayoutJson.Default.LayoutQuestion, (s, q) => s.Try(q));
        Post<LayoutQuestion>("best", LayoutJson.Default.LayoutQuestion, (s, q) => s.Best(q));
        Post<LayoutQuestion>("fewest", LayoutJson.Default.LayoutQuestion, (s, q) => s.Fewest(q));
        Post<MagnetsQuestion>("snap", LayoutJson.Default.MagnetsQuestion, (s, q) => s.Snap(q));
        Post<MagnetsQuestion>("ground", LayoutJson.Default.MagnetsQuestion, (s, q) => s.Ground(q));
        Get("kept", s => s.Kept());
        Post<KeepQuestion>("keep", LayoutJson.Default.KeepQuestion, (s, q) => s.Keep(q));
        Post<ForgetQuestion>("forget", LayoutJson.Default.ForgetQuestion, (s, q) => s.Forget(q));
        Post<SectionQuestion>("section", LayoutJson.Default.SectionQuestion, (s, q) => s.Section(q));
        Post<SaveQuestion>("save", LayoutJson.Default.SaveQuestion, (s, q) => s.Save(q));
        Post<MakeQuestion>("make", LayoutJson.Default.MakeQuestion, (s, q) => s.Make(q));
    }
}
