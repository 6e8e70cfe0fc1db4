"""Sheets of marks in millimetres, and the writers that put them on paper."""

from pinchrod.papers.boards.board_picture import (
    BoardPicture,
    LaneAt,
    OnRack,
    board_picture,
    picture_height,
    picture_scale,
)
from pinchrod.papers.boards.board_table import board_rows
from pinchrod.papers.boards.board_words import facts_words, fault_words, size_words
from pinchrod.papers.boards.moved_words import Became, Moved, moved
from pinchrod.papers.boards.sawn import Sawn, sawn_from, total_of
from pinchrod.papers.boards.stick_picture import InStick, StickPicture, in_stick, stick_picture
from pinchrod.papers.boards.timber_figures import bound_words, by_eye_words, figure_rows
from pinchrod.papers.buying.order_words import quantity_words
from pinchrod.papers.buying.ordered import Ordered
from pinchrod.papers.buying.sure_page import promise_words
from pinchrod.papers.cards.at_the_stop import Lie, lying_picture, lying_words, ways_of_lying
from pinchrod.papers.cards.glue_picture import glue_picture
from pinchrod.papers.cards.glue_words import at_hand_words, clamp_words, closing_words
from pinchrod.papers.cards.machine_words import machine_words
from pinchrod.papers.cards.spares_bands import spares_by_piece, spares_with
from pinchrod.papers.cover import bound_pack, facts
from pinchrod.papers.data.plan_json import plan_json
from pinchrod.papers.data.plan_machining import machining_json
from pinchrod.papers.data.plan_schema import plan_schema
from pinchrod.papers.data.plan_timber import read_timber, timber_json
from pinchrod.papers.data.recut_json import recut_json
from pinchrod.papers.frames.drawing import frame_drawing, framed
from pinchrod.papers.frames.rod_page import rod_sheets
from pinchrod.papers.frames.side_by_side import standing
from pinchrod.papers.labels.label_code import code_text
from pinchrod.papers.labels.label_sheet import label_faults
from pinchrod.papers.labels.label_trial import label_test_sheet
from pinchrod.papers.labels.labels import label_doubts, label_sheets, labelled
from pinchrod.papers.lists.cutting_csv import cutting_csv
from pinchrod.papers.lists.cutting_xlsx import cutting_xlsx
from pinchrod.papers.marks.boxes import Box, extent, sheet_around, text_boxes
from pinchrod.papers.marks.explode import explode, plain_marks
from pinchrod.papers.marks.overlaps import Margins, overlaps
from pinchrod.papers.marks.placing import lettered, placed
from pinchrod.papers.marks.sheet import (
    CENTRE,
    HIDDEN,
    NARROW,
    WIDE,
    Anchor,
    Arc,
    Axis,
    Chain,
    Circle,
    Dimension,
    Fill,
    Line,
    Mark,
    Marks,
    Measuring,
    Papers,
    Path,
    Pen,
    PlainMark,
    Rows,
    RunningDimension,
    Sheet,
    Spot,
    Squares,
    Turn,
    Where,
    Words,
)
from pinchrod.papers.marks.type import missing_letters, shorten_middle, shown, words_width
from pinchrod.papers.order import ORDER_NAMES, order_papers
from pinchrod.papers.pack import PARTS, Paper, for_printing, labels_again, pack
from pinchrod.papers.pages.identity import About, about
from pinchrod.papers.pages.page import MARGINS, NOT_TO_SCALE, Content, bind, body, page_size
from pinchrod.papers.pieces.pieces import OnePiece
from pinchrod.papers.writers.dxf import write_dxf
from pinchrod.papers.writers.pdf import LONGEST_SHEET, MOST_SHEETS, write_pdf
from pinchrod.papers.writers.qr import Correction, qr_rows
from pinchrod.papers.writers.svg import write_svg

__all__ = [
    "CENTRE",
    "HIDDEN",
    "LONGEST_SHEET",
    "MARGINS",
    "MOST_SHEETS",
    "NARROW",
    "NOT_TO_SCALE",
    "ORDER_NAMES",
    "PARTS",
    "WIDE",
    "About",
    "Anchor",
    "Arc",
    "Axis",
    "Became",
    "BoardPicture",
    "Box",
    "Chain",
    "Circle",
    "Content",
    "Correction",
    "Dimension",
    "Fill",
    "InStick",
    "LaneAt",
    "Lie",
    "Line",
    "Margins",
    "Mark",
    "Marks",
    "Measuring",
    "Moved",
    "OnRack",
    "OnePiece",
    "Ordered",
    "Paper",
    "Papers",
    "Path",
    "Pen",
    "PlainMark",
    "Rows",
    "RunningDimension",
    "Sawn",
    "Sheet",
    "Spot",
    "Squares",
    "StickPicture",
    "Turn",
    "Where",
    "Words",
    "about",
    "at_hand_words",
    "bind",
    "board_picture",
    "board_rows",
    "body",
    "bound_pack",
    "bound_words",
    "by_eye_words",
    "clamp_words",
    "closing_words",
    "code_text",
    "cutting_csv",
    "cutting_xlsx",
    "explode",
    "extent",
    "facts",
    "facts_words",
    "fault_words",
    "figure_rows",
    "for_printing",
    "frame_drawing",
    "framed",
    "glue_picture",
    "in_stick",
    "label_doubts",
    "label_faults",
    "label_sheets",
    "label_test_sheet",
    "labelled",
    "labels_again",
    "lettered",
    "lying_picture",
    "lying_words",
    "machine_words",
    "machining_json",
    "missing_letters",
    "moved",
    "order_papers",
    "overlaps",
    "pack",
    "page_size",
    "picture_height",
    "picture_scale",
    "placed",
    "plain_marks",
    "plan_json",
    "plan_schema",
    "promise_words",
    "qr_rows",
    "quantity_words",
    "read_timber",
    "recut_json",
    "rod_sheets",
    "sawn_from",
    "sheet_around",
    "shorten_middle",
    "shown",
    "size_words",
    "spares_by_piece",
    "spares_with",
    "standing",
    "stick_picture",
    "text_boxes",
    "timber_json",
    "total_of",
    "ways_of_lying",
    "words_width",
    "write_dxf",
    "write_pdf",
    "write_svg",
]
