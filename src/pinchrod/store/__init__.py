"""The database: jobs by revision, papers, the ledger of every piece, devices. SQL lives here alone."""

from pinchrod.store.backups import (
    Copy,
    back_up,
    back_up_when_due,
    copies_in,
    is_due,
    look_over,
    taken_at,
    thin,
    to_keep,
)
from pinchrod.store.deeds import SHAPING, STEPS, By, Deed, Event, Recorded, Request, Said
from pinchrod.store.devices import ROLES, Device, device_of, devices, enrol, revoke
from pinchrod.store.drafts import Draft, draft_of, drafts_of, drop_draft, keep_draft
from pinchrod.store.faults import FaultFound, faults_of, record_fault, undo_fault
from pinchrod.store.issuing import Issued, Issuing, issue, issued, paper_as_issued
from pinchrod.store.job_files import JobFiles
from pinchrod.store.jobs import Revision, Saving, files_at, jobs, revision_at, revisions, roll_at, save
from pinchrod.store.ledger import events_after, events_of, last_seq, record, standing_of, undoing
from pinchrod.store.opening import Store, open_store
from pinchrod.store.places import Folder, Place, Server, place_of
from pinchrod.store.replay import Standing, after, replay
from pinchrod.store.restoring import Restored, restore
from pinchrod.store.rolls import Entry, Roll, roll_of
from pinchrod.store.settings import (
    Gone,
    Lot,
    Turn,
    comes_later,
    counts_towards,
    gone,
    is_through,
    said_through,
    turns_of,
)
from pinchrod.store.times import this_moment
from pinchrod.store.verifying import Verified, verify

__all__ = [
    "ROLES",
    "SHAPING",
    "STEPS",
    "By",
    "Copy",
    "Deed",
    "Device",
    "Draft",
    "Entry",
    "Event",
    "FaultFound",
    "Folder",
    "Gone",
    "Issued",
    "Issuing",
    "JobFiles",
    "Lot",
    "Place",
    "Recorded",
    "Request",
    "Restored",
    "Revision",
    "Roll",
    "Said",
    "Saving",
    "Server",
    "Standing",
    "Store",
    "Turn",
    "Verified",
    "after",
    "back_up",
    "back_up_when_due",
    "comes_later",
    "copies_in",
    "counts_towards",
    "device_of",
    "devices",
    "draft_of",
    "drafts_of",
    "drop_draft",
    "enrol",
    "events_after",
    "events_of",
    "faults_of",
    "files_at",
    "gone",
    "is_due",
    "is_through",
    "issue",
    "issued",
    "jobs",
    "keep_draft",
    "last_seq",
    "look_over",
    "open_store",
    "paper_as_issued",
    "place_of",
    "record",
    "record_fault",
    "replay",
    "restore",
    "revision_at",
    "revisions",
    "revoke",
    "roll_at",
    "roll_of",
    "said_through",
    "save",
    "standing_of",
    "taken_at",
    "thin",
    "this_moment",
    "to_keep",
    "turns_of",
    "undo_fault",
    "undoing",
    "verify",
]
