using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>
/// Whether every block of a job on the shelf still fits the plate as its file now is: asked of each revision by what it was cut
/// with, whatever this run made or left, so that no revision hides another and no run that was killed took the answer with it.
/// </summary>
internal sealed class ShelfFit(Register register, LibraryFolder library, ShopFiles shop)
{
    /// <summary>The revisions whose block does not fit, with why. A plate that cannot be read says nothing here: its job is refused.</summary>
    public ImmutableArray<Misfit> Find(JobChange change) =>
        [
            .. register
                .RevisionsOf(change.Job)
                .Where(f => f.OnShelf)
                .Select(f => Look(f, change.Plate.Length > 0 ? change.Plate : f.Plate))
                .OfType<Misfit>(),
        ];

    private Misfit? Look(Fixture f, string plateName) =>
        ReportFile.Read(FrozenBlock.Folder(library.Out, f.Job, f.Revision), f.Job) is { } cut
        && Plate(plateName) is { } plate
        && Difference.Misfit(cut, plate) is { } why
            ? new Misfit(f.Revision, why)
            : null;

    private Plate? Plate(string name) =>
        shop.Find("plates", name) is var (path, text) ? PlateReader.Read(text, path, name).Value?.Plate : null;
}
