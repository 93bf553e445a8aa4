"""Places in, a Group out: the road of many reviews, in the order in which it is walked."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Sequence
from pathlib import Path

from reportgen import limits
from reportgen.gather.alike import alike_lines
from reportgen.gather.document import Unfit
from reportgen.gather.group_file import group_table
from reportgen.gather.group_table import GroupTable
from reportgen.gather.houses import houses_of, read_twice
from reportgen.gather.naming import claimed_twice
from reportgen.gather.schema import winter_of
from reportgen.gather.shelf import Spot, sheets, spots
from reportgen.gather.texts import folded
from reportgen.gather.things import things_of
from reportgen.gather.types import Group, House, LeftOut, Winter
from reportgen.problems import Problem, SeasonError

Tell = Callable[[str], None]
FEWEST = 2  # winters: one is a review of its own
TOLD = 5  # files that are named when none could be read


def quietly(_: str) -> None:
    """The progress of a caller who wants none."""


def gather(
    places: Sequence[Path], group_file: Path | None = None, mark: str | None = None, tell: Tell = quietly
) -> Group:
    """What many reviews say together, without drawing anything.

    Args:
        places: ZIPs, built sites, review.json files, or folders of such.
        group_file: The group.toml; when left out, the one that lies beside the reviews, if any does.
        mark: Label of the house to mark in every picture.
        tell: Called with a few words before each stage.

    Raises:
        SeasonError: A place or group.toml has problems, one winter was read twice, no house is called `mark`, or there
            are fewer than two winters; all problems at once. A file that is no sound review is none: it is left out
            with its reason.
    """
    tell("looking for reviews")
    found, table, file, problems = _looked(places, group_file)
    tell(f"reading {len(found)} file{'s' * (len(found) != 1)}")
    winters, left_out = _read(found)
    tell("telling houses and things apart")
    problems += _countable(winters, left_out) if not problems else []
    problems += read_twice(winters)
    houses, told = houses_of(winters)
    problems += claimed_twice(houses, table.things, file)
    marked, unknown = _marked(houses, mark)
    if problems := [*problems, *unknown]:
        raise SeasonError(problems)
    return Group(
        title=table.title,
        show=table.show,
        story=table.story,
        houses=houses,
        things=things_of(houses, table.things),
        alike=alike_lines(houses, table.things),
        left_out=tuple(left_out),
        mark=marked,
        told=told,
    )


def _looked(places: Sequence[Path], group_file: Path | None) -> tuple[list[Spot], GroupTable, str, list[Problem]]:
    """What lies where, and group.toml, with the problems of both."""
    problems: list[Problem] = []
    found: list[Spot] = []
    table, file = GroupTable(), "group.toml"
    try:
        found = spots(places)
    except SeasonError as error:
        problems += error.problems
    try:
        table, file = group_table(places, group_file)
    except SeasonError as error:
        problems += error.problems
    return found, table, file, problems


def _read(found: Sequence[Spot]) -> tuple[list[Winter], list[LeftOut]]:
    winters: list[Winter] = []
    left_out: list[LeftOut] = []
    for sheet in sheets(found):
        try:
            if sheet.reason is not None:
                raise Unfit(sheet.reason)
            winter = winter_of(sheet.raw, sheet.source)
        except Unfit as unfit:
            left_out.append(LeftOut(source=sheet.source, reason=str(unfit)))
            continue
        winters.append(winter)
        if len(winters) > limits.REVIEWS.most:
            raise SeasonError([_too_many(sheet.source)])
    return winters, left_out


def _too_many(source: str) -> Problem:
    return Problem(
        slug="too-much",
        file=source,
        found=f"more than {limits.REVIEWS.most:,} reviews up to this one",
        expected=limits.REVIEWS.words,
        todo="gather them in parts",
    )


def _countable(winters: Sequence[Winter], left_out: Sequence[LeftOut]) -> list[Problem]:
    """A problem where there is nothing to set beside each other."""
    if len(winters) >= FEWEST:
        return []
    reasons = "; ".join(f"{one.source}: {one.reason}" for one in left_out[:TOLD])
    more = f"; and {len(left_out) - TOLD} more" if len(left_out) > TOLD else ""
    read = f"one review ({winters[0].source})" if winters else "no review"
    return [
        Problem(
            slug="too-few-reviews",
            file=winters[0].source if winters else "all places",
            found=f"{read}{', and what could not be read: ' if reasons else ''}{reasons}{more}",
            expected="two winters or more, of one house or of several",
            todo="name the folder in which the members' ZIPs lie, or all ZIPs one after the other",
        )
    ]


def _marked(houses: Sequence[House], mark: str | None) -> tuple[str | None, list[Problem]]:
    """The label of the house to mark as the group writes it, and a problem where none is called so."""
    labels = {folded(house.label): house.label for house in houses}
    if mark is None or not labels or folded(mark) in labels:
        return labels.get(folded(mark or "")), []
    near = difflib.get_close_matches(folded(mark), list(labels), n=1)
    listed = ", ".join(list(labels.values())[:12]) + (" …" if len(labels) > 12 else "")
    problem = Problem(
        slug="no-such-house",
        file="--mark",
        found=f"{mark!r}, which is no house that was read",
        expected=f"one of: {listed}",
        todo=f"did you mean {labels[near[0]]!r}?" if near else "write one of them, or leave --mark out",
    )
    return None, [problem]
