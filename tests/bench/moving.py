"""Parts moved on the bench as polygons, by another library: what a slide passes over, and whether wood is there."""

from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise

import shapely
from shapely.geometry import Polygon

from pinchrod.bench import Direction

STEPS = {
    Direction.LEFT: (-1.0, 0.0),
    Direction.RIGHT: (1.0, 0.0),
    Direction.UP: (0.0, 1.0),
    Direction.DOWN: (0.0, -1.0),
}
FAR = 20_000.0  # mm: from clear of any frame
TOUCHING = 0.01  # mm²: two pieces that lie close share no more than rounding


def face(member):
    """A member's face as a polygon, grown and shrunk by nothing."""
    return Polygon([(float(x), float(y)) for x, y in member.outline])


@lru_cache(maxsize=10_000)
def swept(polygon, way, far=FAR):
    """All that a polygon passes over as it slides that way from far off to where it lies."""
    dx, dy = (-far * step for step in STEPS[way])
    corners = list(polygon.exterior.coords)
    bands = [
        Polygon([one, other, (other[0] + dx, other[1] + dy), (one[0] + dx, one[1] + dy)])
        for one, other in pairwise(corners)
    ]
    solid = [band for band in bands if band.area > 0]
    return shapely.union_all([polygon, shapely.affinity.translate(polygon, dx, dy), *solid])


def wood_in_the_way(part: Iterable[Polygon], onto: Iterable[Polygon], way: Direction) -> float:
    """How many mm² of the one lot lie where the other passes as it slides on."""
    there = list(onto)
    passed = [swept(each, way) for each in part]
    shared = (path.intersection(each).area for path in passed for each in there if path.intersects(each))
    return float(sum(shared))
