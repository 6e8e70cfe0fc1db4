"""The marks a length is written with: white space, dashes, feet and inch marks, units, fractions."""

import re
import unicodedata

from pinchrod.ground.millimetres import FOOT, INCH, Mm

LIKE = {
    " ": "\t\n\r\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000",
    "-": "\u2010\u2011\u2012\u2013\u2014\u2212",
    "/": "\u2044\u2215",
    '"': "\u2033\u201d\u201c\u02ba",
    "'": "\u2032\u2019\u2018\u02b9\u00b4",
}
AS_TYPED = {ord(look): plain for plain, looks in LIKE.items() for look in looks}
"""Each mark of print, and the mark of a keyboard it stands for: one for one, so that places keep."""

VULGAR = {
    sign: Mm(unicodedata.normalize("NFKD", sign).replace("\u2044", "/")) for sign in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
}

UNITS = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Mm(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Mm(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Mm(1000)),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"', "''"), INCH),
    **dict.fromkeys(("ft", "foot", "feet", "'"), FOOT),
}
UNIT = re.compile(r"""[ ]*+(?P<mark>''|["']|[A-Za-z]++)\.?+""")


def as_typed(text: str) -> str:
    """The text with the marks of print turned into those of a keyboard, each in its place."""
    return text.translate(AS_TYPED)


def unit_at(plain: str, at: int) -> tuple[Mm, int] | None:
    """The millimetres in the unit that comes next and where it ends, or None if no unit comes next."""
    found = UNIT.match(plain, at)
    size = UNITS.get(found["mark"].lower()) if found else None
    return (size, found.end()) if found and size else None
