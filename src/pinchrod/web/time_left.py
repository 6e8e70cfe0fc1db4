"""How long work takes yet, in a rough word, from how far it came in the time it took."""

LONG = 10  # seconds: of shorter work nobody asks how long it takes yet
EARLY = 20  # the part of all that has to be done before anything is told


def time_left(done: int, of: int, seconds: int) -> str:
    """About how long the rest takes, if it goes on as it did; nothing while that would be a guess."""
    if not done or done * EARLY < of or done >= of:
        return ""
    left = seconds * (of - done) // done
    if seconds + left < LONG:
        return ""
    if left < LONG:
        return "a few seconds"
    return f"about {-(-left // 10) * 10} seconds" if left <= 90 else f"about {-(-left // 60)} minutes"
