"""What a scanner types where it and the computer do not mean the same keyboard, turned back.

A scanner sends keys, not letters. Which letter a key is, the computer decides. The tables are from memory of
the keyboards as printed on their keys; they serve only to say what a strange scan looks like.
"""

from collections.abc import Iterator
from dataclasses import dataclass

SWAPPED = {"Y": "Z", "Z": "Y", "y": "z", "z": "y"}
FRENCH = {"Q": "A", "A": "Q", "W": "Z", "Z": "W", "q": "a", "a": "q", "w": "z", "z": "w", "?": "M", ",": "m"}
DIGITS = "1234567890"


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyboard:
    """A way of being set wrongly, and what each letter that comes stands for."""

    how: str
    came: str
    meant: str

    def turned_back(self, said: str) -> str:
        """What was meant, if this is what is wrong."""
        return said.translate(str.maketrans(self.came, self.meant))


def _keyboard(how: str, *pairs: tuple[str, str], swaps: dict[str, str]) -> Keyboard:
    came = "".join([*(pair[0] for pair in pairs), *swaps])
    meant = "".join([*(pair[1] for pair in pairs), *swaps.values()])
    return Keyboard(how=how, came=came, meant=meant)


KEYBOARDS = (
    _keyboard(
        "the scanner types as on an English keyboard, the computer reads a German one",
        ("ß-", "-/"),
        swaps=SWAPPED,
    ),
    _keyboard(
        "the scanner types as on a German keyboard, the computer reads an English one",
        ("/&", "-/"),
        swaps=SWAPPED,
    ),
    _keyboard(
        "the scanner types as on an English keyboard, the computer reads a French one",
        ("&é\"'(-è_çà", DIGITS),
        (")!", "-/"),
        swaps=FRENCH,
    ),
    _keyboard("Shift is held or locked", ("!@#$%^&*()", DIGITS), ("_?", "-/"), swaps={}),
    _keyboard("Shift is held or locked", ('!"£$%^&*()', DIGITS), ("_?", "-/"), swaps={}),
    _keyboard(
        "Shift is held or locked, and the computer reads a German keyboard",
        ('!"§$%&/()=', DIGITS),
        ("?_", "-/"),
        swaps=SWAPPED,
    ),
)


def turned_back(said: str) -> Iterator[tuple[str, Keyboard]]:
    """What was meant, by each way of being set wrongly that would change it."""
    for keyboard in KEYBOARDS:
        meant = keyboard.turned_back(said)
        if meant != said:
            yield meant, keyboard
