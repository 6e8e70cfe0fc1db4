"""The job, set out full size: every member, shoulder, notch, recess and front."""

from pinchrod.setting_out.alike import Pattern, Piece, patterns
from pinchrod.setting_out.cutting import CutLine, cutting_list, shop_order
from pinchrod.setting_out.fronts import door_weight
from pinchrod.setting_out.job import set_out
from pinchrod.setting_out.member import Edge, End, Face, Fixing, HingeSeat, Member, Notch, Recess, Role
from pinchrod.setting_out.rod import DoorPart, DoorPartRole, Front, Opening, Rod, Rods

__all__ = [
    "CutLine",
    "DoorPart",
    "DoorPartRole",
    "Edge",
    "End",
    "Face",
    "Fixing",
    "Front",
    "HingeSeat",
    "Member",
    "Notch",
    "Opening",
    "Pattern",
    "Piece",
    "Recess",
    "Rod",
    "Rods",
    "Role",
    "cutting_list",
    "door_weight",
    "patterns",
    "set_out",
    "shop_order",
]
