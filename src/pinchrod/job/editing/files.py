"""A job's files as a page hands them in and gets them back."""

from dataclasses import dataclass, replace

from pinchrod.ground import Problem
from pinchrod.job.source import Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Files:
    """The job's own file and those that it names; `notes` tell what else than a frame was changed."""

    main: Source
    joined: tuple[Source, ...] = ()
    notes: tuple[Problem, ...] = ()

    def with_source(self, old: Source, new: Source) -> "Files":
        """The same files with another in that one's place."""
        if old == self.main:
            return replace(self, main=new)
        return replace(self, joined=tuple(new if each == old else each for each in self.joined))
