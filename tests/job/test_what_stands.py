"""A fault in one frame leaves the others standing, and every fault is told in one go."""

from pinchrod.ground import Mm
from pinchrod.job import Source, read_job, read_what_stands
from tests.job.bad_inputs import a_frame_saying

LIST = "id,width,height,layout,left stile\n"


def what_stands(text, *, name="frames.csv", joined=(), workshop=None):
    job, shop, problems = read_what_stands(
        Source(name=name, content=text.encode()), joined, workshop=workshop
    )
    return job and [frame.id for frame in job.frames], shop, [problem.code for problem in problems]


def test_a_frame_that_cannot_be_read_leaves_the_others_standing():
    stands, _, codes = what_stands(LIST + "K1,6OO,720,pair,\nK2,600,720,pair,\nK3,600,720,pear,\n")

    assert stands == ["K2"]
    assert codes == ["length-letters", "unknown-word"]


def test_a_frame_with_any_fault_at_all_does_not_stand():
    stands, _, codes = what_stands(LIST + "K1,600,720,pair,x\nK2,600,720,pair,50\n")

    assert (stands, codes) == (["K2"], ["length-not-a-number"])


def test_a_frame_with_an_unknown_name_does_not_stand():
    text = (
        a_frame_saying(left_stil="60") + '[[frame]]\nid = "K2"\nwidth = 600\nheight = 720\nlayout = "pair"\n'
    )

    stands, _, codes = what_stands(text, name="job.toml")

    assert (stands, codes) == (["K2"], ["unknown-name"])


def test_the_first_of_two_frames_with_one_id_stands():
    stands, _, codes = what_stands(LIST + "K1,600,720,pair,\nK1,600,720,door,\nK2,600,720,door,\n")

    assert (stands, codes) == (["K1", "K2"], ["id-twice"])


def test_a_frame_that_is_only_doubted_stands_and_the_job_knows_its_doubts():
    source = Source(name="frames.csv", content=(LIST + "K1,24,720,pair,\nK2,x,720,pair,\n").encode())

    job, _, problems = read_what_stands(source)

    assert [problem.code for problem in problems] == ["small-side", "length-not-a-number"]
    assert job
    assert job.doubts == problems[:1]


def test_no_job_stands_where_a_usual_size_cannot_be_read():
    for text in ("[members]\nstile = 0\n", "[beed]\nwidth = 5\n", '[job]\ntimber = "plumb"\n'):
        stands, _, codes = what_stands(a_frame_saying(width='"x"') + text, name="job.toml")

        assert stands is None
        assert len(codes) == 2


def test_no_job_stands_where_the_file_cannot_be_read():
    shop = Source(name="shop.toml", content=b"pinchrod = 1\n[practice]\nskim = 1\n")

    stands, read, codes = what_stands("[", name="job.toml", workshop=shop)

    assert (stands, codes) == (None, ["bracket-open"])
    assert read.practice.skim == Mm(1)


def test_a_workshop_at_fault_leaves_the_job_standing():
    shop = Source(name="shop.toml", content=b"pinchrod = 1\n[practice]\nskim = 99\n")

    stands, read, codes = what_stands(a_frame_saying(), name="job.toml", workshop=shop)

    assert (stands, codes) == (["K1"], ["too-large"])
    assert read.practice.skim == Mm("1.5")


def test_a_job_with_nothing_wrong_is_the_one_that_is_read():
    source = Source(name="job.toml", content=a_frame_saying(width="24").encode())

    job, shop, problems = read_what_stands(source)

    assert (job, shop) == read_job(source)
    assert job
    assert job.doubts == problems


def test_a_list_without_a_column_that_is_needed_still_tells_what_else_is_wrong_in_it():
    stands, _, codes = what_stands("id,width,layout\nK1,6OO,pair\nK2,600,pear\n,600,pair\n")

    assert stands == []
    assert codes == ["column-missing", "length-letters", "unknown-word", "missing"]


def test_a_list_of_nothing_but_numbers_has_no_totals():
    stands, _, codes = what_stands("width,height\n600,720\n60O,720\n")

    assert stands == []
    assert codes == ["column-missing", "column-missing", "length-letters"]
