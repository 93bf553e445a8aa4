"""The group's first page: what was learnt in three sentences, the one picture, and what to try together."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.charts.types import Drawing, Table
from reportgen.counsel.brief import begun, cut
from reportgen.counsel.cautions import FUEL, SEAL
from reportgen.drawing.together import together_tall, together_wide
from reportgen.gather.pages import frost, things
from reportgen.gather.pages.plan import Plan, open_lines, plan_of, table
from reportgen.gather.pages.plan import title as plan_title
from reportgen.gather.pages.things_tables import together
from reportgen.gather.pages.together_view import FIRST_ROWS, drawn, houses_of, mean_words, title_of, together_view
from reportgen.gather.pages.told import NOT_HERE, Said, Told, held_back
from reportgen.gather.pages.words import houses, in_words, named, no_outdoors, thing_of
from reportgen.wording import NBSP, count, number

CLAUSES, WORDS = 3, 15


@dataclass(frozen=True, kw_only=True, slots=True)
class Front:
    """All of the first page."""

    clauses: tuple[str, ...]
    picture: Drawing | None
    beside: Drawing | None  # where no thing could be told: the frost picture carries the page
    plan: Plan
    plan_title: str
    table: Table | None
    open_: tuple[str, ...]
    told_apart: tuple[str, ...]  # houses that are told something of their own
    unknown: tuple[str, ...]
    cautions: tuple[str, ...]


def front(told: Told) -> Front:
    """The page's parts."""
    plan = plan_of(told)
    picture = _picture(told)
    other = None
    if picture is None:
        page = frost.page(told)
        other = page.picture if isinstance(page.picture, Drawing) else None
    seals = any(one.thing.seals for one in drawn(told)[:FIRST_ROWS])
    cautions = [*((FUEL, SEAL) if _sealed(told) else (SEAL,) if seals else ()), *plan.cautions]
    return Front(
        clauses=clauses(told),
        picture=picture,
        beside=other,
        plan=plan,
        plan_title=plan_title(plan),
        table=table(plan, told),
        open_=open_lines(plan, told),
        told_apart=_sealed(told),
        unknown=_unknown(told),
        cautions=tuple(dict.fromkeys(cautions)),
    )


def clauses(told: Told) -> tuple[str, ...]:
    """Up to three sentences: what helped or did the opposite, what cannot be told, frost; else what was read."""
    firm = [one for one in told.mains if one.mark in ("helped", "opposite")]
    said = [f"{title_of(one)}{_only(one, told)}: {mean_words(one, told)}, in {houses_of(one)}" for one in firm[:2]]
    *_, flame, rest = things.verdicts(told)
    if flame and len(said) < 2:
        said.append(f"{begun(thing_of(flame[0]))}: {NOT_HERE}")
    if rest and len(said) < 2:
        said.append(_open(len(rest), len({one.thing.name for one in told.mains})))
    said.append(frost.headline(told) if frost.page(told).answers else _read(told))
    kept = said[:CLAUSES] if len(said) > 1 else [*said, _read(told)]
    return tuple(begun(_short(words)) for words in dict.fromkeys(kept))


def _short(words: str) -> str:
    """A sentence in its first words; one that gives numbers is left whole, with its count and its warning."""
    kept = words if ": " in words else cut(words, WORDS)
    return kept if kept.endswith("…") else f"{kept}."


def _only(one: Said, told: Told) -> str:
    """Where it must not be done, right behind its name."""
    return f" ({NOT_HERE})" if held_back(one.thing, told.burning) and one.mark == "helped" else ""


def _open(open_: int, of: int) -> str:
    if open_ == of:
        return (
            "What the one thing we tried does, we cannot tell yet"
            if of == 1
            else (f"Of {in_words(of)} things that we tried, none can be told yet")
        )
    return f"Of {in_words(of)} things that we tried, {in_words(open_)} we cannot tell yet"


def _read(told: Told) -> str:
    return f"{houses(len(told.group.houses))}, {count(told.winters, 'winter')} on record"


def _picture(told: Told) -> Drawing | None:
    view = together_view(told, "front", FIRST_ROWS)
    if view is None:
        return None
    return Drawing(
        uid="front",
        title="What each thing did, a dot a house",
        subtitle=f"Thin line: one house, before and after, weather taken out. Bar: all together, 95{NBSP}%. Broken "
        "line: where the next house would lie.",
        label=view.label,
        description=view.description,
        wide=together_wide(view),
        narrow=together_tall(view),
        table=together(told),
        sure="Only a house's own before and after is put together; a verdict takes five houses, and no one of them may "
        "carry it.",
    )


def _sealed(told: Told) -> tuple[str, ...]:
    """Houses whose own review told of a fuel burnt while the house was tight: said first, by name."""
    labels = [h.label for h in told.group.houses if any(w.sealed_burner for w in h.winters)]
    if not labels:
        return ()
    verb = "tells" if len(labels) == 1 else "tell"
    review = "review" if len(labels) == 1 else "reviews"
    whose = "its" if len(labels) == 1 else "their"
    return (
        f"{begun(named(labels, 4))}: {whose} own {review} {verb} of a fuel burnt inside while the house was closed.",
    )


def _unknown(told: Told) -> tuple[str, ...]:
    """What the group does not know, at most four."""
    newest = [house.newest for house in told.group.houses]
    n = len(newest)
    counts = (
        (
            sum(no_outdoors(w) for w in newest),
            "had no logger outdoors: no change there could be told",
        ),
        (
            sum(w.headlines.heat_kwh is None and w.heated is not False for w in newest),
            "did not log what the heater took",
        ),
        (
            sum(things.is_old(house.label, told) for house in told.group.houses),
            "came with a review of an older release: no change there is put together",
        ),
        (sum(w.headlines.hours_above_high.estimate is None for w in newest), "had no humidity beside the crop"),
        (sum(w.headlines.harvest_kg is None for w in newest), "handed in no weighed harvest"),
    )
    return tuple(f"{number(k)} of {houses(n)} {words}." for k, words in counts if k)
