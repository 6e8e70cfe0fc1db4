"""The docs' checks find what is missing, what is stale and what leads nowhere."""

from pathlib import Path

from house_docs import (
    dead_links,
    explained,
    faults_of_docs,
    pages_left_out,
    problems_without_words,
    rooms_without_a_page,
    words_without_problems,
)
from tests.house.planted import a_file, a_tree

THIN_WEB = """
    # Webs

    ## thin-web

    A web is what is left behind a notch.

    ## `no-web`

    ```
    # not-a-heading
    ```
"""


def test_a_problem_is_explained_by_a_heading_with_or_without_quotes(tmp_path):
    top = a_tree(tmp_path, docs__problems__webs=THIN_WEB)

    assert set(explained(top)) == {"thin-web", "no-web"}


def test_a_problem_without_words_is_found_where_the_code_gives_it(tmp_path):
    top = a_tree(tmp_path, docs__problems__webs=THIN_WEB)
    room = a_file("Problem(code='no-web' if web < 0 else 'thin-web')\nProblem(\n    code='narrow-floor')\n")

    [fault] = problems_without_words(top, (room,))

    assert fault.line == 3
    assert "narrow-floor" in fault.what


def test_words_about_a_problem_that_is_gone_are_found(tmp_path):
    top = a_tree(tmp_path, docs__problems__webs=THIN_WEB)

    [fault] = words_without_problems(top, (a_file("_fault('no-web')\n"),))

    assert "thin-web" in fault.what


def test_a_link_that_leads_nowhere_is_found_on_its_line(tmp_path):
    top = a_tree(
        tmp_path, README="[words](docs/words.md) [site](https://example.org)\n[gone](docs/gone.md#stile)\n"
    )
    a_tree(top, docs__words="```\n[drawn](nowhere)\n```\n[up](../README.md)\n")

    [fault] = dead_links(top)

    assert (fault.path, fault.line) == (Path("README.md"), 2)


def test_a_page_the_index_does_not_name_is_found(tmp_path):
    top = a_tree(tmp_path, docs__README="[words](words.md)", docs__words="", docs__problems__webs="")

    a_tree(top, src__pinchrod__job__README="# The job room")

    found = [fault.path.as_posix() for fault in pages_left_out(top)]

    assert found == ["docs/problems/webs.md", "src/pinchrod/job/README.md"]


def test_a_checkout_without_an_index_has_every_page_left_out(tmp_path):
    assert len(list(pages_left_out(a_tree(tmp_path, docs__words="")))) == 1


def test_a_room_without_a_page_is_found(tmp_path):
    top = a_tree(tmp_path, src__pinchrod__job__README="# The job room")
    for room in ("job", "fit"):
        door = top / "src" / "pinchrod" / room / "__init__.py"
        door.parent.mkdir(parents=True, exist_ok=True)
        door.touch()

    [fault] = rooms_without_a_page(top)

    assert fault.path == Path("src/pinchrod/fit/README.md")


def test_docs_in_order_have_no_faults(tmp_path):
    top = a_tree(tmp_path, docs__README="[webs](problems/webs.md)", docs__problems__webs=THIN_WEB)
    room = a_file("Problem(code='no-web' if web < 0 else 'thin-web')\n")

    assert not list(faults_of_docs(top, (room,)))
