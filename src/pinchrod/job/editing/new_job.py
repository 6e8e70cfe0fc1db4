"""A first job file, for a job that begins on a page: what is usual is written out, to be changed there."""

from collections.abc import Iterator

from pinchrod.ground import show
from pinchrod.job.editing.toml_words import in_quotes, named, written
from pinchrod.job.job_file import JOINTS, USUAL_JOINT
from pinchrod.job.limits import USUAL
from pinchrod.job.source import Source
from pinchrod.job.timbers import USUAL_TIMBER
from pinchrod.job.version import VERSION

NAME = "job.toml"
REMARKS = {
    "members": "face widths, bead included",
    "gaps": "between the bead and a door or drawer front",
    "thickness": "finished, every member",
    "joint": f"or {', '.join(joint for joint in JOINTS if joint != USUAL_JOINT)}",
    "width": "bead and quirk together; 0 for square edges",
    "mid_rail": "rails between openings",
    "bottom_rail": "0 for none",
    "edge": "all round",
    "meeting": "between the two leaves of a pair",
}
COLUMN = 28  # where remarks begin


def a_new_job(name: str, *, customer: str = "", timber: str = USUAL_TIMBER, thickness: str = "22") -> Source:
    """A job file without a frame, its words as they were typed; what is left blank is as usual."""
    said = {"name": name, "customer": customer, "timber": timber, "thickness": thickness}
    text = "\n".join(_lines({key: words.strip() for key, words in said.items() if words.strip()}))
    return Source(name=NAME, content=f"{text}\n".encode("utf-8", "surrogatepass"))


def _lines(said: dict[str, str]) -> Iterator[str]:
    yield '# Millimetres, unless a value says otherwise: "23 5/8 in" is read wherever a length is.'
    yield f"\npinchrod = {VERSION}\n"
    yield "[job]"
    for key, words in said.items():
        value = written(key, words) if key == "thickness" else in_quotes(words)
        yield _with_remark(named(key, value), key)
    yield _with_remark(named("joint", in_quotes(USUAL_JOINT)), "joint")
    for table in ("bead", "members", "gaps"):
        yield ""
        yield _with_remark(f"[{table}]", table)
        for usual in (usual for usual in USUAL if usual.table == table):
            yield _with_remark(named(usual.key, show(usual.size)), usual.key)
    yield "\n# The frames, each under [[frame]]."


def _with_remark(line: str, key: str) -> str:
    remark = REMARKS.get(key, "")
    return f"{line:{COLUMN}}# {remark}" if remark else line
