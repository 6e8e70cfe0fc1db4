"""The few letters that stand for all that was read, so that a stale paper is noticed."""

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Crockford's base 32: no I, L, O or U, so that nothing reads as something else (from memory)."""


def content_mark(fingerprint: str) -> str:
    """Eight letters that stand for all that was read, in two groups of four: `7K3M-04XQ`.

    They carry the fingerprint's first 40 bits, and change whenever a word of the job does.
    """
    bits = int(fingerprint[:10], 16)
    letters = "".join(LETTERS[bits >> 5 * place & 31] for place in range(7, -1, -1))
    return f"{letters[:4]}-{letters[4:]}"
