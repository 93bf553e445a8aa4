"""A picture of houses for the page and for a phone."""

from __future__ import annotations

from reportgen.drawing import crowd, houses


def wide_and_tall(view: houses.Houses | crowd.Crowd) -> tuple[str, str]:
    """A row a house, or a crowd of dots where they are many."""
    if isinstance(view, crowd.Crowd):
        return crowd.crowd_wide(view), crowd.crowd_tall(view)
    return houses.houses_wide(view), houses.houses_tall(view)
