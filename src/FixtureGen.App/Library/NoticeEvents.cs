using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>Notices about blocks on the shelf: they stand until somebody answers, with name and reason.</summary>
internal static class NoticeEvents
{
    /// <summary>The register with a notice, unless the same stands or was answered already.</summary>
    public static Register Give(Register register, Fixture block, string what, Occasion occasion)
    {
        if (register.Notices.Any(n => n.Job == block.Job && n.Revision == block.Revision && n.What == what))
        {
            return register;
        }
        int number = register.Notices.Length + 1;
        return (
            register with
            {
                Notices = register.Notices.Add(
                    new Notice
                    {
                        Number = number,
                        At = occasion.At,
                        Job = block.Job,
                        Revision = block.Revision,
                        What = what,
                        Answer = NoticeAnswer.Open,
                        By = "",
                        Reason = "",
                        AnsweredAt = "",
                    }
                ),
            }
        ).Noted(occasion, Happening.Noticed, block.Job, block.Revision, amount: number, why: what);
    }

    /// <summary>Answers every notice that stands about a job's blocks; a reason must be given.</summary>
    public static Stage<Register> Answer(Register register, string folder, Noting noting, Occasion occasion)
    {
        Notice[] open =
        [
            .. register.Notices.Where(n =>
                n.Job == noting.Job
                && n.Answer == NoticeAnswer.Open
                && (noting.Revision is null || n.Revision == noting.Revision)
            ),
        ];
        return open.Length == 0 ? Stage.Failed<Register>(NoNotice(register, noting.Job))
            : occasion.Why.Length == 0 ? Stage.Failed<Register>(NoReason(folder, noting))
            : Stage.Answer(open.Aggregate(register, (r, n) => Answered(r, n, noting.Answer, occasion)));
    }

    /// <summary>Every notice about a revision is answered by its last block being thrown away.</summary>
    public static Register ScrappedWith(Register register, string job, int revision, Occasion occasion) =>
        register
            .Notices.Where(n =>
                n.Job == job && n.Revision == revision && (n.Answer is NoticeAnswer.Open or NoticeAnswer.Recut)
            )
            .ToArray()
            .Aggregate(register, (r, n) => Answered(r, n, NoticeAnswer.Scrapped, occasion));

    /// <summary>A notice whose answer was a mistake stands again.</summary>
    public static Register Reopen(Register register, int number) =>
        register with
        {
            Notices = register.Notices.SetItem(
                number - 1,
                register.Notices[number - 1] with
                {
                    Answer = NoticeAnswer.Open,
                    By = "",
                    Reason = "",
                    AnsweredAt = "",
                }
            ),
        };

    private static Register Answered(Register register, Notice notice, NoticeAnswer answer, Occasion occasion) =>
        (
            register with
            {
                Notices = register.Notices.SetItem(
                    notice.Number - 1,
                    notice with
                    {
                        Answer = answer,
                        By = occasion.Who,
                        Reason = occasion.Why,
                        AnsweredAt = occasion.At,
                    }
                ),
            }
        ).Noted(occasion, Happening.Answered, notice.Job, notice.Revision, amount: notice.Number);

    private static Finding NoNotice(Register register, string job) =>
        new(
            "notice-none",
            Severity.Error,
            job,
            "no notice about its blocks stands",
            register.Notices.Where(n => n.Answer == NoticeAnswer.Open).Select(n => n.Job).Distinct().ToArray()
                is { Length: > 0 } others
                ? $"notices stand about {string.Join(", ", others)}"
                : "'fixturegen regenerate' looks at every block on the shelf and gives the notices"
        );

    private static Finding NoReason(string folder, Noting noting) =>
        new(
            "notice-reason",
            Severity.Error,
            noting.Job,
            "a notice is answered with a reason, which stays beside it",
            $"'fixturegen register {folder} --{(noting.Answer == NoticeAnswer.Accepted ? "accept" : "recut")} {noting.Job} --why \"...\"'"
        );
}
