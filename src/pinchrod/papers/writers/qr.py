"""QR codes as rows of squares."""

from typing import Literal

Correction = Literal["l", "m", "q", "h"]
"""How much of a code may be lost: about 7, 15, 25 or 30 in a hundred."""


def qr_rows(text: str, error: Correction = "q", *, mask: int | None = None) -> tuple[str, ...]:
    """The rows of the text's QR code from the top, "1" for a black square, without the quiet zone.

    Capitals, figures and `$%*+-./: ` make the smallest code. Never a Micro QR code:
    telephones do not read it. The best of the eight masks is looked for, which takes five times as long
    as to make the code; whoever needs very many may name a mask instead.
    """
    import segno  # late: only labels and pages with a code need it

    code = segno.make_qr(text, error=error, mask=mask)
    return tuple("".join("1" if square else "0" for square in row) for row in code.matrix)
