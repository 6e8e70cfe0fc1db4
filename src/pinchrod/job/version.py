"""The version of a file's form: the first line of every job and workshop file."""

from pinchrod.ground import Problem, Where
from pinchrod.job.said import Number, Reading, Table

VERSION = 1


def read_version(said: Table, whole_file: Where) -> Reading[bool]:
    """Whether the file can be read on; a problem if its form is not the one we read."""
    version = said.get("pinchrod")
    if version is None:
        what = "the file does not say which form it has; it was read as form 1"
        mend = "write pinchrod = 1 on its first line"
        yield Problem(where=whole_file, code="version-missing", what=what, mend=mend, stops=False)
    elif (
        not isinstance(version.value, Number) or not version.value.text.isdigit() or version.value.text == "0"
    ):
        what = f"pinchrod is {version.typed}, which is no form of this file"
        yield Problem(where=version.at, code="version-odd", what=what, mend="write pinchrod = 1")
    elif version.value.text != str(VERSION):
        what = f"the file has form {version.value.text}; this release reads form {VERSION}"
        mend = f"read it with a later release, or write it anew in form {VERSION}"
        yield Problem(where=version.at, code="version-newer", what=what, mend=mend)
        return False
    return True
