"""The house's figures count what they say."""

from house_figures import branches, figures, functions, lines_of_code, percentile, public, sizes, typed
from tests.house.planted import a_file

RIPPED = '''
    """Ripping."""

    # Kerf first.
    def rip(board: Board, *, kerf: Mm) -> tuple[Strip, ...]:
        """The strips of a board.

        Widest first.
        """
        strips = []

        # common practice, no source
        for width in board.widths:
            if width > kerf:
                strips.append(
                    width,
                )
        return tuple(strip for strip in strips if strip)


    class _Saw:
        def cut(self, board):
            return board
'''


def test_docstrings_comments_signatures_and_blank_lines_are_no_lines_of_code():
    ripped = a_file(RIPPED)

    measured = {function.name: lines for function, lines in sizes(ripped)}

    assert measured == {"rip": 7, "cut": 1}
    assert len(lines_of_code(ripped)) == 8 + 3


def test_a_loop_an_if_and_a_sieve_are_branches():
    rip, cut = functions(a_file(RIPPED))

    assert (branches(rip), branches(cut)) == (3, 0)


def test_what_an_underscore_hides_is_not_public():
    assert [function.name for function in public([a_file(RIPPED)])] == ["rip"]


def test_a_function_is_typed_when_it_says_all_it_takes_and_gives():
    rip, cut = functions(a_file(RIPPED))

    assert typed(rip)
    assert not typed(cut)


def test_a_percentile_is_a_count_that_was_seen():
    assert percentile(range(1, 101), 95) == 95
    assert percentile([7, 1, 3], 50) == 3
    assert percentile([], 95) == 0


def test_a_figure_out_of_range_starts_a_talk():
    long = a_file("def plan():\n" + "    cut()\n" * 30)

    table = {figure.name: figure for figure in figures([long], [])}

    assert table["lines a function: median, 95th"].here == (30, 30)
    assert not table["functions typed, %"].in_range
    assert str(table["functions typed, %"]).endswith("<- talk")
    assert not str(table["branches a function: 95th"]).endswith("<- talk")
