"""What the picture of things is told: a row a thing, a dot a house, in multiples of what is worth having."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel.brief import begun, fitted
from reportgen.drawing.together import Dot, Row, Together
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.told import Said, Told
from reportgen.gather.pages.words import cut_thing, houses, thing_of
from reportgen.gather.types import Member
from reportgen.wording import NBSP, count

MOST_ROWS, FIRST_ROWS = 8, 5  # on the page of things, and on the first page
LABEL = "What each thing did in each house, and what the houses say together, with the weather taken out"


def together_view(told: Told, uid: str, most: int = MOST_ROWS, where: str = "in the table") -> Together | None:
    """The things that most houses could tell; None where none could. `where` the rest stands."""
    known = drawn(told)
    if not known:
        return None
    rows = tuple(_row(one, told) for one in known[:most])
    left = len(known) - len(rows)
    return Together(
        uid=uid,
        label=LABEL,
        description=f"{fitted([_told(one, told) for one in known[:most]], 54, '; ')}.",
        rows=rows,
        folded=f"{begun(count(left, 'more row'))} {where}." if left else "",
        times=f"times what is worth having: {worth(told, known[:most])}",
    )


def drawn(told: Told) -> list[Said]:
    """Things with at least one house's estimate on a scale of what is worth having, in the order of the pages."""
    return [one for one in told.mains if one.k and say.factor(one.stratum.outcome) is not None]


def worth(told: Told, rows: Sequence[Said]) -> str:
    """0.5 degrees, 10 % of the heat, 3 points of humidity: those that the rows need."""
    w = told.w
    names = {
        "lift": f"{w.degrees(say.CARE['lift'])} of warmth",
        "soil_mean": f"{w.degrees(say.CARE['soil_mean'])} in the bed",
        "heat": f"10{NBSP}% of the heat",
        "watts_per_kelvin": f"10{NBSP}% of the heat",
        "night_humidity": f"3{NBSP}points of humidity",
    }
    return ", ".join(dict.fromkeys(names[o] for o in names if any(r.stratum.outcome == o for r in rows)))


def title_of(said: Said) -> str:
    """Bubble film; Bubble film, unheated houses; a kind says so."""
    name = begun(thing_of(said.thing.name))
    return f"{name} (a kind, not one thing)" if said.thing.is_kind else name


def which(said: Said) -> str:
    """6 heated houses, heat for each degree."""
    return f"{say.on(said.stratum.outcome)}, {houses_of(said)}"


def houses_of(said: Said) -> str:
    """6 heated houses."""
    kind = {True: "heated ", False: "unheated ", None: ""}[said.stratum.heated]
    return count(said.k, f"{kind}house")


def mean_words(said: Said, told: Told, *, brief: bool = False) -> str:
    """12 to 19 % less heat for each degree; '' where nothing was put together."""
    found = said.pooled
    return "" if found is None else say.interval(said.stratum, found.low, found.high, told.w, brief=brief)


def next_words(said: Said, told: Told) -> str:
    """Next house: from 2 % more to 31 % less."""
    found = said.pooled
    if found is None:
        return ""
    return f"next house: {say.interval(said.stratum, found.next_low, found.next_high, told.w, brief=True)}"


def _row(said: Said, told: Told) -> Row:
    factor, found = say.factor(said.stratum.outcome), said.pooled
    assert factor is not None
    mean = next_ = None
    if found is not None:
        ends = sorted((found.low * factor, found.high * factor))
        mean = (ends[0], found.mean * factor, ends[1])
        a, b = sorted((found.next_low * factor, found.next_high * factor))
        next_ = (a, b)
    return Row(
        mark=said.mark,
        words=begun(cut_thing(said.thing.name)),
        note=f"a kind, not one thing: {which(said)}" if said.thing.is_kind else which(said),
        dots=tuple(_dot(member, factor, told) for member in said.stratum.members),
        mean=mean,
        next_=next_,
        said=begun(mean_words(said, told)) or _alone(said, told),
        said_next=next_words(said, told),
        verdict=said.verdict,
        ours=_ours(said, told),
    )


def _alone(said: Said, told: Told) -> str:
    """The one house's own interval; '' where several are shown side by side."""
    if len(said.stratum.members) != 1:
        return ""
    own = said.stratum.members[0]
    return f"One house: {say.interval(said.stratum, own.low, own.high, told.w)}"


def _dot(member: Member, factor: float, told: Told) -> Dot:
    low, high = sorted((member.low * factor, member.high * factor))
    return Dot(member.effect * factor, low, high, told.ours(member.house))


def _ours(said: Said, told: Told) -> str:
    """The marked house's own interval, where it is one of them."""
    own = next((m for m in said.stratum.members if told.ours(m.house)), None)
    if own is None:
        return ""
    return f"your house: {say.interval(said.stratum, own.low, own.high, told.w, brief=True)}"


def _told(said: Said, told: Told) -> str:
    words = mean_words(said, told) or houses(said.k)
    return f"{title_of(said)}: {words}, {said.verdict}"
