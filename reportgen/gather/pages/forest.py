"""One thing house by house: each with its own interval in its own unit, below them what they say together."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.charts.effects_words import WAYS
from reportgen.charts.timeline import brief_day
from reportgen.charts.types import Drawing
from reportgen.counsel.brief import begun, fitted
from reportgen.drawing import crowd, houses
from reportgen.drawing.axis import Axis
from reportgen.drawing.ink import MARK_TOKENS
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.drawn import wide_and_tall
from reportgen.gather.pages.measure import scaled
from reportgen.gather.pages.things_tables import members as members_of
from reportgen.gather.pages.together_view import houses_of, mean_words, next_words, title_of, which
from reportgen.gather.pages.told import Said, Told, held_back
from reportgen.gather.pages.words import cut_name, in_words, name_of, plain_words
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.types import RELATIVE, Member
from reportgen.wording import NBSP, number


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
        subtitle=f"{begun(which(said))}, with the weather taken out; {_shown_as(members)}.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=members_of(said, told),
        sure=_beside(said, told),
        notes=_notes(said, told),
    )


def _shown_as(members: list[Member]) -> str:
    return "a dot a house" if len(members) > houses.MOST else f"bars: 95{NBSP}% of what may be"


def _forest_svg(
    uid: str, said: Said, members: list[Member], told: Told, label: str, description: str
) -> tuple[str, str]:
    s, w = said.stratum, told.w
    _, _, brief_more, brief_less = WAYS.get(s.outcome, ("more", "less", "more", "less"))
    token = MARK_TOKENS[said.mark]
    if len(members) > houses.MOST:
        values = tuple(say.shown(s, m.effect, w) for m in members)
        ours = next((n for n, m in enumerate(members) if told.ours(m.house)), None)
        kind = crowd.Kind(name="", values=values, ours=ours)
        view = crowd.Crowd(uid=uid, label=label, description=description, axis=_axis(said, told), kinds=(kind,),
                           token=token, heavy_word="no effect")  # fmt: skip
        return wide_and_tall(view)
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
    return wide_and_tall(forms)


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
    """The verdict, then what the same thing did besides, where houses say it together: first what is sure, then, of
    what closes the house, the damp, which is its price."""
    others = [one for one in told.of(said.thing) if one.stratum.outcome != said.stratum.outcome and one.pooled]
    others.sort(
        key=lambda one: (one.mark == "open", not (said.thing.seals and one.stratum.outcome == "night_humidity"))
    )
    told_ = [f"{mean_words(one, told)} ({houses_of(one)})" for one in others[:2]]
    beside = f" Beside it: {'; '.join(told_)}." if told_ else ""
    return f"{begun(said.verdict)}.{_closed(said, told)}{beside}{_without_heat(said, told)}"


def _without_heat(said: Said, told: Told) -> str:
    """What few unheated houses saw of a thing that the others tell by their heat: they stand in no other picture."""
    if said.stratum.outcome not in RELATIVE:
        return ""
    cold = (one for one in told.of(said.thing) if one.stratum.outcome == "lift" and one.stratum.heated is False)
    few = [(one.stratum, member) for one in cold if one.pooled is None for member in one.stratum.members[:2]]
    each = [f"{say.interval(s, m.low, m.high, told.w)} ({name_of(m.house)})" for s, m in few]
    alone = "by itself" if len(each) == 1 else "each by itself"
    return f" Without heat, {alone}: {'; '.join(each)}." if each else ""


def _closed(said: Said, told: Told) -> str:
    if not held_back(said.thing, told.burning):
        return ""
    n = len(told.burning)
    return f" It closes the house, and in {so_many(n)} of ours a fuel burns inside, so nobody here is asked to try it."


def _notes(said: Said, told: Told) -> tuple[str, ...]:
    if said.pooled is None:
        return ()
    return (plain_words(said.pooled.why),) if said.pooled.why else ()
