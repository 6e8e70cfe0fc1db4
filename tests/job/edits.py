"""Jobs to be edited, and what is looked at afterwards."""

from importlib.resources import files

from pinchrod.job import Source, frames_as_said, read_job

DEMO = files("pinchrod.cli").joinpath("saltmarsh_row")


def demo_file(name):
    return Source(name=name, content=DEMO.joinpath(name).read_bytes())


def the_demo():
    """The demo's job file and those that it names."""
    return demo_file("job.toml"), (demo_file("boot-room.csv"), demo_file("workshop.toml"))


def a_job(text, name="job.toml"):
    return Source(name=name, content=text.encode() if isinstance(text, str) else text)


def words_of_all(main, joined=()):
    return [dict(frame.words) for frame in frames_as_said(main, joined)]


def ids(main, joined=()):
    return [frame.id for frame in frames_as_said(main, joined)]


def frames_of(main, joined=()):
    """The frames as read, without the places where they stand."""
    job, _ = read_job(main, joined)
    return {frame.id: sizes(frame) for frame in job.frames}


def sizes(frame):
    """All that a frame is but where it was said."""
    told = {name: getattr(frame, name) for name in frame.__slots__}
    return {name: value for name, value in told.items() if "where" not in name}
