"""Things: what each change did over all houses, and each of them house by house."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.brief import begun
from reportgen.counsel.cautions import FUEL, SEAL
from reportgen.drawing.houses import MOST
from reportgen.drawing.together import together_tall, together_wide
from reportgen.gather.pages.forest import forest
from reportgen.gather.pages.measure import missing
from reportgen.gather.pages.things_tables import lines, together
from reportgen.gather.pages.together_view import (
    MOST_ROWS,
    title_of,
    together_view,
)
from reportgen.gather.pages.told import NOT_HERE, Said, Told, is_dial
from reportgen.gather.pages.types import GroupPage, Lack
from reportgen.gather.pages.words import in_words, named, no_outdoors, plain_words, thing_of
from reportgen.gather.strata import FUMES, NO_ERROR
from reportgen.gather.types import Group
from reportgen.wording import are, count, listed

MOST_BLOCKS, MOST_ROWS_OPEN = 4, 44
LONGEST_REASON = 160  # letters of a review's own reason in a sentence
OLD = "reviewed by an older release, which leaves out what putting together takes; review the season anew"
DIAL = "What a dial spares goes by its degrees: each house's own review tells it, by the price of a degree."
NOTHING = "No thing was changed by a house of this group and judged by its own review."


def page(told: Told) -> GroupPage:
    """Every thing in one picture, the four that most houses tried one by one, all figures folded."""
    view = together_view(told, "things", MOST_ROWS)
    if view is None:
        return _empty(told)
    picture = Drawing(
        uid="things",
        title="Each thing, a dot a house, and what the houses say together",
        subtitle="A dot and a thin line: one house, before and after, weather taken out. Bar: all together, 95\u00a0%. "
        "Broken line: where the next house would lie.",
        label=view.label,
        description=view.description,
        wide=together_wide(view),
        narrow=together_tall(view),
        table=together(told),
        sure=_sure(told),
        notes=(_kinds_note(told.group),) if any(thing.is_kind for thing in told.group.things) else (),
    )
    forests = [(one, forest(one, told, n)) for n, one in enumerate(_shown(told), start=1)]
    open_ = _open(forests)
    return GroupPage(
        slug="things",
        headline=headline(told),
        lead=_flame(told),
        picture=picture,
        blocks=(*(drawn for _, drawn in forests[:open_]), *_lacking(told)),
        rest=(*(drawn for _, drawn in forests[open_:]), lines(told)),
        cautions=_cautions(told),
    )


def _cautions(told: Told) -> tuple[str, ...]:
    """What closes a house wants a word on flames; where one burnt in a closed house of ours, on fumes too."""
    sealed = any(winter.sealed_burner for house in told.group.houses for winter in house.winters)
    seals = any(thing.seals for thing in told.group.things)
    return (FUEL, SEAL) if sealed else (SEAL,) if seals else ()


def _empty(told: Told) -> GroupPage:
    rest: tuple[Table, ...] = (lines(told),) if any(thing.lines for thing in told.group.things) else ()
    if rest:
        return GroupPage(
            slug="things",
            headline="No change could be told in any house",
            lead=" ".join(["Changes stand in the diaries, but none could be told.", *_dials(told)]),
            answers=False,
            blocks=_lacking(told),
            rest=rest,
        )
    lead = (
        f"{NOTHING} Write each change into the diary on its day, with what it touches and what you hope; "
        "with three quiet weeks on either side a review can judge it."
    )
    return GroupPage(slug="things", headline="No change could be told in any house", lead=lead, answers=False)


def headline(told: Told) -> str:
    """How many things helped, did the opposite, and cannot be told: one verdict a thing."""
    helped, opposite, flame, rest = (len(names) for names in verdicts(told))
    parts = [f"{in_words(helped)} helped"] if helped else []
    parts += [f"{in_words(opposite)} did the opposite"] if opposite else []
    parts += [f"{in_words(rest)} we cannot tell yet"] if rest else []
    things = helped + opposite + flame + rest
    if rest == things > 1:
        return f"Of {count(things, 'thing')} that we changed, none can be told yet"
    if not parts:
        return f"{begun(count(things, 'thing'))} {are(things, 'closes', 'close')} the house, and in some a fuel burns"
    return f"Of {count(things, 'thing')} that we changed, {', '.join(parts)}" if things > 1 else _alone(told)


def _flame(told: Told) -> str:
    """Things that close the house, where a fuel burns in one of the group's."""
    names = verdicts(told)[2]
    if not names:
        return ""
    verb = "closes" if len(names) == 1 else "close"
    return f"{begun(listed([thing_of(name) for name in names], 3))} {verb} the house: {NOT_HERE}."


def _alone(told: Told) -> str:
    one = told.mains[0]
    return f"{title_of(one)}: {one.verdict}"


def verdicts(told: Told) -> tuple[list[str], list[str], list[str], list[str]]:
    """Names of the things that helped, that did the opposite, that are held back where a fuel burns, and the rest.

    Of a thing's rows, heated and unheated, the firmest counts.
    """
    marks: dict[str, set[str]] = {}
    for one in told.mains:
        marks.setdefault(one.thing.name, set()).add("flame" if one.verdict == NOT_HERE else one.mark)
    order = ("opposite", "flame", "helped", "open")
    found: dict[str, list[str]] = {mark: [] for mark in order}
    for name, own in marks.items():
        found[next(mark for mark in order if mark in own)].append(name)
    return found["helped"], found["opposite"], found["flame"], found["open"]


def _sure(told: Told) -> str:
    shared = any(n > 1 for one in told.mains if one.pooled is not None for n in one.pooled.houses_by_weather)
    refused = sum(len(one.stratum.refused) for one in told.mains)
    parts = ["Only a house's own before and after is put together, never a difference between houses."]
    if shared:
        parts.append("Houses under one weather err together; that is in the bars.")
    if refused:
        tries = begun(count(refused, "try", "tries"))
        parts.append(f"{tries} could not be told and {are(refused)} in the table.")
    return " ".join([*parts, *_dials(told)])


def _dials(told: Told) -> list[str]:
    """What a thermostat spares is put together by nobody."""
    shown = {one.thing.name for one in told.mains}
    dials = [t for t in told.group.things if t.name not in shown and is_dial(t, told.lines)]
    return [DIAL] if dials else []


def _kinds_note(group: Group) -> str:
    names = named([thing.name for thing in group.things if thing.is_kind], 3)
    return f"Put together by what they touch and hope for, since no thing was named: {names}. Such a row is a kind."


def _shown(told: Told) -> list[Said]:
    return [one for one in told.mains if one.k >= 2][:MOST_BLOCKS]


def _lacking(told: Told) -> tuple[Note, ...]:
    """Houses of which no change could be told."""
    able = {member.house for one in told.said for member in one.stratum.members}
    tried = {line[0] for thing in told.group.things for line in thing.lines}
    none = tuple(h.label for h in told.group.houses if h.label not in tried)
    fumes = {refusal.house for one in told.said for refusal in one.stratum.refused if refusal.reason == FUMES}
    open_ = tuple(h.label for h in told.group.houses if h.label in tried - able - fumes)
    burns = tuple(h.label for h in told.group.houses if h.label in (tried & fumes) - able)
    lacks = (
        [Lack(houses=none, why="tried none of these; a change counts by its day and what was hoped of it")]
        if none
        else []
    )
    if burns:
        lacks.append(Lack(houses=burns, why="a fuel burns inside, so that what closes the house is not counted"))
    by_reason: dict[str, list[str]] = {}
    for label in open_:
        by_reason.setdefault(_why_open(label, told), []).append(label)
    return missing([*lacks, *(Lack(houses=tuple(labels), why=why) for why, labels in by_reason.items())])


def _why_open(label: str, told: Told) -> str:
    """Why no change of that house could be told, and what to do."""
    if no_outdoors(told.houses[label].newest):
        return "no logger outdoors, so no change could be told; hang one in the shade"
    if is_old(label, told):
        return OLD
    reasons = {one.reason for said in told.mains for one in said.stratum.refused if one.house == label}
    if len(reasons) == 1 and len(why := plain_words(reasons.pop())) <= LONGEST_REASON:
        return f"no change could be told: {why}"
    return "no change could be told; leave three quiet weeks on either side of the next"


def is_old(label: str, told: Told) -> bool:
    """Whether the reviews of that house leave out what putting together takes."""
    reasons = {one.reason for said in told.said for one in said.stratum.refused if one.house == label}
    return NO_ERROR in reasons


def _open(forests: Sequence[tuple[Said, Drawing]]) -> int:
    """How many of the pictures stand open: the first, and more as long as all have few rows."""
    rows = [0 if one.k > MOST else one.k + 2 for one, _ in forests]
    return max(1, sum(total <= MOST_ROWS_OPEN for total in accumulate(rows)))
