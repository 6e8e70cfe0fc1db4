"""What can be bought: offers in the job file and the workshop file, and what was sent before."""

import pytest

from pinchrod.ground import Mm, NotYetRight, Span
from pinchrod.job import Offer, Per, Shop, Source, joined_files, limits, read_job, read_workshop
from tests.job.bad_inputs import BOARDS, OFFER, a_frame_saying, an_offer_saying
from tests.job.workbooks import a_sheet, parts_of_a_workbook, zipped

SENT = BOARDS + "B1,27,160,3000,,,,0-60\nB1,27,182,2700,,,,\n"


def a_file(name, text):
    return Source(name=name, content=text.encode())


def a_workshop(*offers, beside=(), name="workshop.toml"):
    return Source(name=name, content="\n".join(["pinchrod = 1", *offers, ""]).encode(), beside=beside)


def read(*offers, joined=(), workshop=None, head=""):
    """The job with a good frame and these offers."""
    text = "\n".join([a_frame_saying(), *offers, head, ""])
    return read_job(a_file("job.toml", text), tuple(joined), workshop=workshop)[0]


def test_an_offer_is_what_was_said_with_random_sizes_from_the_least_to_the_most():
    [offer] = read(an_offer_saying()).offers

    assert offer == Offer(
        name="offer 1",
        thickness=Mm(27),
        width=Span(Mm(150), Mm(250)),
        length=Span(Mm(2400), Mm(4800)),
        price=Mm(640),
        per=Per.CUBIC_METRE,
    )
    assert not offer.is_fixed
    assert str(offer.where) == "job.toml:9:3"


def test_boards_of_one_size_are_fixed():
    [offer] = read(an_offer_saying(width="150", length="3000", price="4.20", per='"m"')).offers

    assert offer.is_fixed
    assert (offer.width, offer.length) == (Span(Mm(150), Mm(150)), Span(Mm(3000), Mm(3000)))
    assert (offer.price, offer.per) == (Mm("4.2"), Per.METRE)


def test_a_size_in_inches_is_exact():
    [offer] = read(an_offer_saying(thickness='"1 1/8 in"', width='["6 1/4 in", "10 in"]')).offers

    assert (offer.thickness, offer.width) == (Mm("28.575"), Span(Mm("158.75"), Mm(254)))


@pytest.mark.parametrize(
    ("written", "per"),
    [("M3", Per.CUBIC_METRE), ("m ³", Per.CUBIC_METRE), (" Board  Foot ", Per.BOARD_FOOT), ("board_feet", Per.BOARD_FOOT),
     ("BOARD", Per.BOARD), ("M", Per.METRE)],
)  # fmt: skip
def test_case_and_gaps_in_what_a_price_is_for_do_not_matter(written, per):
    assert read(an_offer_saying(per=f'"{written}"')).offers[0].per is per


def test_the_jobs_offers_come_first_and_then_the_workshops():
    workshop = a_workshop(an_offer_saying(), an_offer_saying(name='"Ash"'))

    job = read(an_offer_saying(name='"Poplar"'), an_offer_saying(), workshop=workshop)

    assert [offer.name for offer in job.offers] == ["Poplar", "offer 2", "workshop offer 1", "Ash"]
    assert [offer.where.file for offer in job.offers] == ["job.toml"] * 2 + ["workshop.toml"] * 2


def test_this_weeks_price_in_the_job_stands_before_the_workshops():
    workshop = a_workshop(an_offer_saying(name='"Ash"', price="700"))

    job = read(an_offer_saying(name='"ash"', price="650"), workshop=workshop)

    assert [(offer.name, offer.price) for offer in job.offers] == [("ash", 650)]
    assert [doubt.code for doubt in job.doubts] == ["offer-twice"]


def test_a_workshop_keeps_its_offers_when_it_is_read_alone():
    shop, doubts = read_workshop(a_workshop(an_offer_saying(name='"Ash"')))

    assert [offer.name for offer in shop.offers] == ["Ash"]
    assert doubts == ()
    assert Shop().offers == ()


def test_what_was_sent_before_comes_with_the_offer_and_a_name_may_come_again():
    offer, other = read(
        an_offer_saying(history='"sent.csv"'), an_offer_saying(), joined=[a_file("sent.csv", SENT)]
    ).offers

    assert [(board.name, board.width) for board in offer.history] == [("B1", 160), ("B1", 182)]
    assert [len(board.faults) for board in offer.history] == [1, 0]
    assert other.history == ()


def test_what_was_sent_before_may_be_a_workbook():
    book = zipped(
        parts_of_a_workbook(a_sheet(("board", "thickness", "width", "length"), ("D1", 27, 160, 3000)))
    )

    [offer] = read(
        an_offer_saying(history='"sent.xlsx"'), joined=[Source(name="sent.xlsx", content=book)]
    ).offers

    assert [(board.name, board.width) for board in offer.history] == [("D1", 160)]


def test_a_history_of_some_boards_out_of_the_offers_sizes_is_no_doubt_and_of_most_is_one():
    def doubts(*widths):
        rows = "".join(f"B{n},27,{width},3000,,,,\n" for n, width in enumerate(widths))
        job = read(an_offer_saying(history='"sent.csv"'), joined=[a_file("sent.csv", BOARDS + rows)])
        return [doubt.code for doubt in job.doubts]

    assert doubts(140, 260, 139, 261) == []  # half of them by 1 mm more than the slack
    assert doubts(140, 260, 139, 261, 261) == ["history-unlike"]


def test_a_job_and_a_workshop_tell_which_files_their_offers_join():
    job = a_file(
        "job.toml", '[job]\nrack = "rack.csv"\n[[offer]]\nhistory = "a.csv"\n[[offer]]\nhistory = "a.csv"'
    )

    assert joined_files(job) == ("rack.csv", "a.csv")
    assert joined_files(a_workshop('[[offer]]\nhistory = "b.xlsx"\n[[offer]]\nhistory = 7')) == ("b.xlsx",)


def test_a_workshops_history_is_the_file_beside_it_and_not_the_jobs_of_the_same_name():
    theirs = a_file("shop/sent.csv", SENT.replace("182", "190"))
    workshop = a_workshop(an_offer_saying(history='"sent.csv"'), beside=(theirs,))

    own, shops = read(
        an_offer_saying(history='"sent.csv"'), joined=[a_file("sent.csv", SENT)], workshop=workshop
    ).offers

    assert [board.width for board in own.history] == [160, 182]
    assert [board.width for board in shops.history] == [160, 190]


def test_a_workshops_history_may_lie_among_the_jobs_files():
    workshop = a_workshop(an_offer_saying(history='"sent.csv"'))

    [offer] = read(joined=[a_file("sent.csv", SENT)], workshop=workshop).offers

    assert len(offer.history) == 2


def test_every_word_of_what_was_sent_before_counts_for_the_fingerprint():
    offer = an_offer_saying(history='"sent.csv"')

    def seal(sent, **more):
        return read(offer, joined=[a_file("sent.csv", sent)], **more).fingerprint

    def shop_seal(sent):
        return read(workshop=a_workshop(offer, beside=(a_file("sent.csv", sent),))).fingerprint

    assert seal(SENT) == seal(SENT)
    assert seal(SENT) != seal(SENT + "\n")
    assert shop_seal(SENT) != shop_seal(SENT + "\n")


def test_a_job_without_offers_keeps_the_fingerprint_that_it_had():
    job = a_file("job.toml", a_frame_saying())

    assert read_job(job)[0].fingerprint == read_job(job, (a_file("sent.csv", SENT),))[0].fingerprint


def test_every_fault_of_every_offer_and_its_history_is_told_at_once():
    offers = [an_offer_saying(width="[250, 150]", per=None), an_offer_saying(price="0", history='"sent.csv"')]

    with pytest.raises(NotYetRight) as trouble:
        read(*offers, joined=[a_file("sent.csv", BOARDS + "B1,27,,3000,,,,60-0\n")])

    assert sorted(problem.code for problem in trouble.value.problems) == [
        "fault-backwards", "missing", "missing", "offer-backwards", "too-small",
    ]  # fmt: skip


def test_a_hundred_offers_are_read_and_one_more_is_not():
    assert len(read(*[an_offer_saying()] * 100).offers) == limits.MOST_OFFERS

    with pytest.raises(NotYetRight, match="101 offers"):
        read(*[an_offer_saying()] * 101)


@pytest.mark.parametrize("key", ["thickness", "width", "length", "price"])
def test_a_figure_of_an_offer_may_reach_both_its_ends_and_no_further(key):
    between = limits.OFFER_SIZES[key]

    for end in (between.low, between.high):
        assert read(an_offer_saying(**{key: f"{float(end):.10g}"})).offers
    for beyond in (between.low - Mm("0.001"), between.high + Mm("0.001")):
        with pytest.raises(NotYetRight, match=r"less than|more than"):
            read(an_offer_saying(**{key: f"{float(beyond):.10g}"}))


@pytest.mark.parametrize(
    ("said", "fits"),
    [({"thickness": "23.5"}, True), ({"thickness": "23.4"}, False), ({"width": "[20, 52]"}, True),
     ({"width": "[20, 51.9]"}, False), ({"length": "[100, 300]"}, True), ({"length": "[100, 299.9]"}, False)],
)  # fmt: skip
def test_an_offer_that_gives_not_one_stick_is_doubted_and_one_that_just_gives_one_is_not(said, fits):
    job = read(an_offer_saying(**said))

    assert [doubt.code for doubt in job.doubts] == ([] if fits else ["offer-unfit"])


def test_the_order_in_which_an_offers_names_stand_does_not_matter():
    turned = "\n".join(["[[offer]]", *reversed([f"{key} = {value}" for key, value in OFFER.items()])])

    assert read(turned).offers == read(an_offer_saying()).offers
