"""How the writers put a number into a file."""


def figure(value: float) -> str:
    """The number to a ten-thousandth of a millimetre, without needless noughts, the same everywhere."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
