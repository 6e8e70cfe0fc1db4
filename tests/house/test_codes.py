"""Every way in which the code gives a problem its code is followed."""

import pytest

from house_codes import codes
from tests.house.planted import a_file

TAKERS = """
class Rule:
    words: str
    code: str

def _fault(where: Where, code: str, what: str) -> Problem:
    return Problem(where=where, code=code, what=what)

class Reader:
    def refuse(self, code: str) -> Problem:
        return _fault(self.where, code, "")
"""


@pytest.mark.parametrize(
    ("planted", "given"),
    [
        ("Problem(code='thin-web', what='a notch')", ["thin-web"]),
        ("Problem(code='no-web' if web < 0 else 'thin-web')", ["no-web", "thin-web"]),
        ("code = 'thin-web'", ["thin-web"]),
        ("code, what = 'thin-web', f'{web} left'", ["thin-web"]),
        ("_fault(where, 'thin-web', 'a notch')", ["thin-web"]),
        ("reader.refuse('thin-web')", ["thin-web"]),
        ("Rule('words', 'thin-web')", ["thin-web"]),
        ("Problem(code=trouble.code)", []),
        ("sys.exit('thin-web')", []),
        ("Problem(code='no-web' if kind == 'pair' else 'thin-web')", ["no-web", "thin-web"]),
        ("code = read(where)", []),
    ],
)
def test_a_code_is_found_however_it_is_given(planted, given):
    found = [text for _, _, text in codes([a_file(TAKERS), a_file(planted, room="fit")])]

    assert found == given
