"""Things: what each change did over all houses, and each of them house by house."""

from __future__ import annotations

from collections.abc import Iterator

import pandas as pd

from reportgen.charts.effects_words import WAYS
from reportgen.charts.timeline import brief_day
from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.brief import begun, fitted
from reportgen.counsel.cautions import SEAL
from reportgen.drawing import crowd, houses
from reportgen.drawing.axis import Axis
from reportgen.drawing.ink import MARK_TOKENS
from reportgen.drawing.together import together_tall, together_wide
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.measure import scaled
from reportgen.gather.pages.together_view import (
    MOST_ROWS,
    mean_words,
    next_words,
    title_of,
    together_view,
    which,
)
from reportgen.gather.pages.told import NOT_HERE, Said, Told, held_back
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.pages.words import cut_name, in_words, named, thing_of, whole
from reportgen.gather.types import Group, Member
from reportgen.wording import NBSP, are, count, listed, number

MOST_BLOCKS = 4
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
        table=table(told),
        sure=_sure(told),
        notes=(_kinds_note(told.group),) if any(thing.is_kind for thing in told.group.things) else (),
    )
    blocks = tuple(forest(one, told, n) for n, one in enumerate(_shown(told), start=1))
    return GroupPage(
        slug="things",
        headline=headline(told),
        lead=_flame(told),
        picture=picture,
        blocks=blocks,
        rest=_rest(told),
        cautions=(SEAL,) if any(thing.seals for thing in told.group.things) else (),
    )


def _empty(told: Told) -> GroupPage:
    lead = (
        f"{NOTHING} Write each change into the diary on its day, with what it touches and what you hope; "
        "with three quiet weeks on either side a review can judge it."
    )
    rest: tuple[Table, ...] = (_lines_table(told),) if any(thing.lines for thing in told.group.things) else ()
    return GroupPage(
        slug="things", headline="No change could be told in any house", lead=lead, answers=False, rest=rest
    )


def headline(told: Told) -> str:
    """How many things helped, did the opposite, and cannot be told: one verdict a thing."""
    helped, opposite, flame, rest = (len(names) for names in verdicts(told))
    parts = [f"{in_words(helped)} helped"] if helped else []
    parts += [f"{in_words(opposite)} did the opposite"] if opposite else []
    parts += [f"{in_words(rest)} we cannot tell yet"] if rest else []
    things = helped + opposite + flame + rest
    if rest == things > 1:
        return f"Of {count(things, 'thing')} that we changed we cannot tell one yet"
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
    judged = [one for one in told.mains if one.pooled is not None]
    refused = sum(len(one.stratum.refused) for one in told.mains)
    parts = ["Only a house's own before and after is put together, never a difference between houses."]
    if judged and any("weather" not in m.weather for one in judged for m in one.stratum.members):
        parts.append("Houses under one weather err together; that is in the bars.")
    if refused:
        parts.append(
            f"{begun(count(refused, 'try', 'tries'))} could not be told and {'is' if refused == 1 else 'are'} in the table."
        )
    return " ".join(parts)


def _kinds_note(group: Group) -> str:
    names = named([thing.name for thing in group.things if thing.is_kind], 3)
    return f"Put together by what they touch and hope for, since no thing was named: {names}. Such a row is a kind."


def _shown(told: Told) -> list[Said]:
    return [one for one in told.mains if one.k >= 2][:MOST_BLOCKS]


def forest(said: Said, told: Told, n: int) -> Drawing:
    """One thing, a row a house, in its own unit."""
    uid = f"thing_{n}"
    members = sorted(said.stratum.members, key=lambda m: (m.effect, m.house, m.when))
    words = mean_words(said, told)
    title = f"{title_of(said)}: {words or f'{in_words(said.k)} houses, each by itself'}"
    label = f"{title_of(said)}, a row a house"
    description = _described(said, told)
    wide, tall = _forest_svg(uid, said, members, told, label, description)
    return Drawing(
        uid=uid,
        title=title,
        subtitle=f"{begun(which(said))}, with the weather taken out; bars: 95{NBSP}% of what may be.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=_members(said, told),
        sure=_beside(said, told),
        notes=_notes(said, told),
    )


def _forest_svg(
    uid: str, said: Said, members: list[Member], told: Told, label: str, description: str
) -> tuple[str, str]:
    s, w = said.stratum, told.w
    more, less, brief_more, brief_less = WAYS.get(s.outcome, ("more", "less", "more", "less"))
    token = MARK_TOKENS[said.mark]
    if len(members) > houses.MOST:
        values = tuple(say.shown(s, m.effect, w) for m in members)
        ours = next((n for n, m in enumerate(members) if told.ours(m.house)), None)
        kind = crowd.Kind(name="", values=values, ours=ours)
        view = crowd.Crowd(uid=uid, label=label, description=description, axis=_axis(said, told), kinds=(kind,),
                           token=token, heavy_word="no effect")  # fmt: skip
        return crowd.crowd_wide(view), crowd.crowd_tall(view)
    forms = houses.Houses(
        uid=uid,
        label=label,
        description=description,
        axis=_axis(said, told),
        rows=tuple(_rows(said, members, told)),
        token=token,
        heavy_word="no effect",
        left_word=f"← {brief_less}",
        right_word=f"{brief_more} →",
    )
    return houses.houses_wide(forms), houses.houses_tall(forms)


def _rows(said: Said, members: list[Member], told: Told) -> Iterator[houses.Row]:
    s, w = said.stratum, told.w
    names = [member.house for member in members]
    for m in members:
        twice = names.count(m.house) > 1
        yield houses.Row(
            name=f"{cut_name(m.house, 120)}, {brief_day(m.when)}" if twice else cut_name(m.house),
            value=say.shown(s, m.effect, w),
            low=say.shown(s, m.low, w),
            high=say.shown(s, m.high, w),
            said=say.estimate(s, m.effect, (m.high - m.low) / 2, w),
            ours=told.ours(m.house),
        )
    if said.pooled is None:
        return
    p = said.pooled
    low, high = (say.shown(s, end, w) for end in (p.low, p.high))
    yield houses.Row(name="All together", value=say.shown(s, p.mean, w), low=low, high=high, kind="mean",
                     said=say.estimate(s, p.mean, (p.high - p.low) / 2, w))  # fmt: skip
    a, b = say.shown(s, p.next_low, w), say.shown(s, p.next_high, w)
    n = say.places(s, p.next_low, p.next_high, w)
    unit = {"K": "degrees"}.get(s.unit, say.unit(s, w))
    said_next = f"{number(a, n)} to {number(b, n)}{NBSP}{unit}"
    yield houses.Row(name="The next house", value=None, low=a, high=b, kind="next", said=said_next)


def _axis(said: Said, told: Told) -> Axis:
    """From the estimates, the sum and the next house; a house's own interval may run over it, as an arrow."""
    s, w, p = said.stratum, told.w, said.pooled
    ends = [m.effect for m in s.members] + ([p.low, p.high, p.next_low, p.next_high] if p else [])
    if p is None:
        ends += [end for m in s.members for end in (m.low, m.high)]
    unit = f"{NBSP}%" if say.unit(s, w) == "%" else "°" if s.unit == "K" else ""
    return scaled([*(say.shown(s, end, w) for end in ends), 0.0], unit, 0.0, 4)


def _described(said: Said, told: Told) -> str:
    ours = next((m for m in said.stratum.members if told.ours(m.house)), None)
    own = say.interval(said.stratum, ours.low, ours.high, told.w) if ours is not None else ""
    parts = [
        f"{title_of(said)}, {which(said)}",
        f"together {mean_words(said, told)}" if said.pooled else "",
        next_words(said, told),
        said.verdict,
        f"your house {own}" if own else "",
    ]
    return f"{fitted(parts, 54)}."


def _beside(said: Said, told: Told) -> str:
    """The verdict, then what the same thing did besides, where houses say it together."""
    others = [one for one in told.of(said.thing) if one.stratum.outcome != said.stratum.outcome and one.pooled]
    told_ = [f"{mean_words(one, told)} ({so_many(one.k)})" for one in others[:2]]
    beside = f" Beside it: {'; '.join(told_)}." if told_ else ""
    return f"{begun(said.verdict)}.{_closed(said, told)}{beside}"


def _closed(said: Said, told: Told) -> str:
    if not held_back(said.thing, told.burning):
        return ""
    n = len(told.burning)
    return f" It closes the house, and in {so_many(n)} of ours a fuel burns inside, so nobody here is asked to try it."


def _notes(said: Said, told: Told) -> tuple[str, ...]:
    if said.pooled is None:
        return ()
    return (said.pooled.why,) if said.pooled.why else ()


def _rest(told: Told) -> tuple[Drawing | Table | Note, ...]:
    return (_lines_table(told),)


def table(told: Told) -> pd.DataFrame:
    """Every stratum with its houses and what they say together."""
    rows = []
    for one in told.said:
        p, s = one.pooled, one.stratum
        values = [None] * 5 if p is None else [p.mean, p.low, p.high, p.next_low, p.next_high]
        shown = [None if v is None else round(say.shown(s, v, told.w), 2) for v in values]
        kind = {True: "heated", False: "unheated", None: ""}[s.heated]
        need = None if p is None else p.more_houses
        rows.append(
            [whole(one.thing.name), "a kind" if one.thing.is_kind else "a thing", say.on(s.outcome), kind,
             say.unit(s, told.w), one.k, len(s.refused), *shown, one.verdict, need]
        )  # fmt: skip
    names = ["thing", "a thing or a kind", "on what", "houses of which kind", "unit", "houses that could tell",
             "tries that could not", "mean", "low", "high", "next house low", "next house high", "verdict",
             "more houses it would take"]  # fmt: skip
    return pd.DataFrame(rows, columns=names)


def _members(said: Said, told: Told) -> pd.DataFrame:
    s, w = said.stratum, told.w
    unit = say.unit(s, w)
    rows: list[list[object]] = [
        [
            whole(m.house),
            m.winter,
            m.when,
            whole(m.what),
            *(round(say.shown(s, v, w), 2) for v in (m.effect, m.low, m.high)),
            "",
        ]
        for m in s.members
    ]
    rows += [[whole(r.house), r.winter, r.when, whole(r.what), None, None, None, whole(r.reason)] for r in s.refused]
    names = ["house", "winter", "day", "what the diary says", f"effect, {unit}", f"low, {unit}", f"high, {unit}",
             "why it could not be told"]  # fmt: skip
    return pd.DataFrame(rows, columns=names)


def _lines_table(told: Told) -> Table:
    """Which diary lines count as which thing."""
    lines = [(thing, line) for thing in told.group.things for line in thing.lines]
    data = pd.DataFrame(
        [[whole(t.name), whole(house), winter, day, whole(what)] for t, (house, winter, day, what) in lines],
        columns=["thing", "house", "winter", "day", "what the diary says"],
    )
    cells = tuple(
        (whole(thing_of(t.name)), whole(house), winter, f"{brief_day(day)}{NBSP}{day.year}", whole(what))
        for t, (house, winter, day, what) in lines[:120]
    )
    cut = (
        f"The first {number(len(cells))} of {number(len(lines))} lines; all are in the file."
        if len(lines) > len(cells)
        else ""
    )
    return Table(
        uid="things_lines",
        title="Which diary lines count as which thing",
        subtitle="A line belongs to one thing only.",
        columns=tuple(data.columns),
        rows=cells,
        data=data,
        notes=(cut,) if cut else (),
    )
