"""Where one is within a job: its six pages, side by side on every one of them."""

from dataclasses import dataclass

from pinchrod.store import Revision

PLACES = ("frames", "timber", "machines", "bench", "papers", "words")
"""The pages of a job in the order of the work; `words` last: what the joiner said, word for word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to another page of the job."""

    address: str
    word: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """The job that a page is of, and the ways to its other pages."""

    job: str
    name: str
    number: int
    mark: str
    here: str

    @property
    def home(self) -> str:
        """Where everything of the job begins."""
        return f"/jobs/{self.job}"

    @property
    def ways(self) -> tuple[Way, ...]:
        """Its pages, and which of them this is."""
        return tuple(
            Way(address=f"{self.home}/{place}", word=place.capitalize(), here=place == self.here)
            for place in PLACES
        )


def within(revision: Revision, here: str) -> Within:
    """Where a page of that job stands; `here` is one of `PLACES`."""
    return Within(job=revision.job, name=revision.name, number=revision.number, mark=revision.mark, here=here)
