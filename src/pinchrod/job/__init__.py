"""What the joiner says: the job, its frames and the workshop, read and checked."""

from pinchrod.job.bench_habits import Glue, Spoiled, Tally, Taping
from pinchrod.job.boards import MM3, Board, Fault
from pinchrod.job.content_mark import content_mark
from pinchrod.job.limits import MOST_NAME
from pinchrod.job.names import plain
from pinchrod.job.offers import Offer, Per
from pinchrod.job.phrases.phrase import read_phrase
from pinchrod.job.phrases.spelling import spell_phrase
from pinchrod.job.rack import by_volume
from pinchrod.job.reading import joined_files, read_job, read_what_stands, read_workshop
from pinchrod.job.records import (
    Bead,
    Doors,
    Frame,
    Gaps,
    Group,
    Issue,
    Job,
    Joint,
    Kind,
    Layout,
    Place,
    Side,
    Timber,
    Way,
)
from pinchrod.job.shop import (
    DovetailKey,
    Dowel,
    Fixings,
    Hinges,
    HingeStep,
    LabelSheet,
    LooseTenon,
    Machines,
    Moisture,
    MorticeAndTenon,
    Moulder,
    Notcher,
    PaperChoices,
    PocketScrew,
    Practice,
    Saw,
    Shop,
    Thicknesser,
)
from pinchrod.job.source import Source

__all__ = [
    "MM3",
    "MOST_NAME",
    "Bead",
    "Board",
    "Doors",
    "DovetailKey",
    "Dowel",
    "Fault",
    "Fixings",
    "Frame",
    "Gaps",
    "Glue",
    "Group",
    "HingeStep",
    "Hinges",
    "Issue",
    "Job",
    "Joint",
    "Kind",
    "LabelSheet",
    "Layout",
    "LooseTenon",
    "Machines",
    "Moisture",
    "MorticeAndTenon",
    "Moulder",
    "Notcher",
    "Offer",
    "PaperChoices",
    "Per",
    "Place",
    "PocketScrew",
    "Practice",
    "Saw",
    "Shop",
    "Side",
    "Source",
    "Spoiled",
    "Tally",
    "Taping",
    "Thicknesser",
    "Timber",
    "Way",
    "by_volume",
    "content_mark",
    "joined_files",
    "plain",
    "read_job",
    "read_phrase",
    "read_what_stands",
    "read_workshop",
    "spell_phrase",
]
