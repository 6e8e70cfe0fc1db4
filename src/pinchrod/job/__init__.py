"""What the joiner says: the job, its frames and the workshop, read and checked."""

from pinchrod.job.bench_habits import Glue, Spoiled, Tally, Taping
from pinchrod.job.board_feet import (
    BOARD_FOOT,
    TallyLine,
    board_feet_of,
    measure,
    measure_of_delivery,
    price_of,
    price_of_delivery,
    tally_of,
)
from pinchrod.job.boards import MM3, Board, Fault
from pinchrod.job.content_mark import content_mark
from pinchrod.job.editing.as_said import FrameWords, Words, frames_as_said, frames_in
from pinchrod.job.editing.differences import Change, changes_between
from pinchrod.job.editing.files import Files
from pinchrod.job.editing.frames_edited import Which, moved, with_frame, with_frames, without_frame
from pinchrod.job.editing.new_job import a_new_job
from pinchrod.job.editing.one_frame import OneFrame, one_frame, usual_members
from pinchrod.job.editing.pasting import Pasted, pasted
from pinchrod.job.editing.rack_edits import boards_as_said, rack_of, with_boards
from pinchrod.job.editing.retyped import retyped, text_of
from pinchrod.job.frames import Members
from pinchrod.job.limits import MOST_NAME
from pinchrod.job.names import plain
from pinchrod.job.offers import Offer, Per, Tallying
from pinchrod.job.phrases.phrase import read_phrase
from pinchrod.job.phrases.spelling import spell_phrase
from pinchrod.job.rack import by_volume
from pinchrod.job.rack_words import (
    RACK_COLUMNS,
    BoardWords,
    RackWords,
    rack_cell_of,
    rack_words_pasted,
    with_fault,
)
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
    Planer,
    PocketScrew,
    Practice,
    Saw,
    Shop,
    Slotter,
    Tenoner,
    Thicknesser,
)
from pinchrod.job.source import Source
from pinchrod.job.timbers import known_timbers

__all__ = [
    "BOARD_FOOT",
    "MM3",
    "MOST_NAME",
    "RACK_COLUMNS",
    "Bead",
    "Board",
    "BoardWords",
    "Change",
    "Doors",
    "DovetailKey",
    "Dowel",
    "Fault",
    "Files",
    "Fixings",
    "Frame",
    "FrameWords",
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
    "Members",
    "Moisture",
    "MorticeAndTenon",
    "Moulder",
    "Notcher",
    "Offer",
    "OneFrame",
    "PaperChoices",
    "Pasted",
    "Per",
    "Place",
    "Planer",
    "PocketScrew",
    "Practice",
    "RackWords",
    "Saw",
    "Shop",
    "Side",
    "Slotter",
    "Source",
    "Spoiled",
    "Tally",
    "TallyLine",
    "Tallying",
    "Taping",
    "Tenoner",
    "Thicknesser",
    "Timber",
    "Way",
    "Which",
    "Words",
    "a_new_job",
    "board_feet_of",
    "boards_as_said",
    "by_volume",
    "changes_between",
    "content_mark",
    "frames_as_said",
    "frames_in",
    "joined_files",
    "known_timbers",
    "measure",
    "measure_of_delivery",
    "moved",
    "one_frame",
    "pasted",
    "plain",
    "price_of",
    "price_of_delivery",
    "rack_cell_of",
    "rack_of",
    "rack_words_pasted",
    "read_job",
    "read_phrase",
    "read_what_stands",
    "read_workshop",
    "retyped",
    "spell_phrase",
    "tally_of",
    "text_of",
    "usual_members",
    "with_boards",
    "with_fault",
    "with_frame",
    "with_frames",
    "without_frame",
]
