"""The pages of the site in the order of the navigation: the one list from which every other list of pages derives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True, slots=True)
class Subject:
    """One page of a subject; its module in `charts` has the name of its slug.

    `name`: in the navigation. `told`: the place of its findings where all findings are put in order, page by page.
    `section`: its result is the section of that name in review.json; False where review.json has it in another form.
    """

    slug: str
    name: str
    told: int
    section: bool = True


SUBJECTS: tuple[Subject, ...] = (
    Subject(slug="changes", name="Changes", told=6, section=False),  # keys `changes` and `levers`
    Subject(slug="frost", name="Frost", told=1),
    Subject(slug="heat", name="Heat", told=2),
    Subject(slug="damp", name="Damp", told=3),
    Subject(slug="soil", name="Soil", told=4),
    Subject(slug="light", name="Light", told=5),
    Subject(slug="harvest", name="Harvest", told=7),
    Subject(slug="winters", name="Two winters", told=8),
    Subject(slug="record", name="Record", told=9),
)
PAGES: tuple[str, ...] = tuple(one.slug for one in SUBJECTS)
# The first page, the method page and the handout are put together by themselves.
NAMES: Mapping[str, str] = MappingProxyType(
    {"index": "Winter", **{one.slug: one.name for one in SUBJECTS}, "method": "Method", "handout": "Handout"}
)
AS_TOLD: tuple[str, ...] = tuple(one.slug for one in sorted(SUBJECTS, key=lambda one: one.told))
SECTIONS: tuple[str, ...] = ("house", "weather", *(one.slug for one in SUBJECTS if one.section))
