"""Which picture carries each page, what explains it, and what is folded: answer, picture, evidence, in that order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.charts.types import Drawing, Note, Page, Table

Block = Drawing | Table | Note
MOST_BLOCKS = 4
MOST_PAIRS = 6  # small pictures of one change each
LEAD_WORDS = 25
# For each page the blocks that stand open, in their order; the first that the season has carries the page. "a|b" is
# the first of both that there is, "a_*_b" every block that begins and ends so.
OPEN: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "frost": ("frost_nights", "frost_night", "frost_after", "frost_margins", "frost_alarms"),
        "heat": ("heat_weeks", "heat_price", "heat_months", "heat_loss|heat_line"),
        "damp": ("damp_carpet", "damp_clock", "damp_airing|damp_months", "damp_dryer"),
        "soil": ("soil_days", "soil_nights", "soil_weeks", "soil_fan"),
        "light": ("light_days", "light_length", "light_lamp", "light_gloomy"),
        "changes": ("changes_effects", "changes_*_weather", "changes_refused"),
        "harvest": (
            "harvest_weeks",
            "harvest_worth|harvest_running",
            "harvest_balance",
            "harvest_crops",
            "harvest_beds",
        ),
        "winters": ("winters_equal", "winters_rows", "winters_nights"),
        "record": ("record_days", "record_gaps"),
    }
)
# Too wide for half a column: they take the whole of it.
FULL = frozenset(
    {
        "harvest_worth",
        "harvest_beds",
        "harvest_next",
        "changes_refused",
        "winters_rows",
        "winters_nights",
        "record_gaps",
        "heat_loss",
        "events",
        "events_crops",
        "levers",
        "levers_beside",
    }
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Arranged:
    """A page's blocks by their place: the one that carries it, up to four that explain it, and the folded rest."""

    picture: Drawing | Table | None
    blocks: tuple[Drawing | Table, ...]
    rest: tuple[Block, ...]


def arranged(page: Page) -> Arranged:
    """The page's blocks in the order of `OPEN`; cautions are not among them, they stand together at the foot."""
    named = {block.uid: block for block in page.blocks if isinstance(block, Drawing | Table) and not _empty(block)}
    chosen = [named[uid] for uid in _wanted(OPEN.get(page.slug, ()), named)]
    picture = next((block for block in chosen if isinstance(block, Drawing)), chosen[0] if chosen else None)
    most = MOST_PAIRS if page.slug == "changes" else MOST_BLOCKS
    blocks = tuple(block for block in chosen if block is not picture)[:most]
    shown = {id(block) for block in (picture, *blocks)}
    rest = tuple(b for b in page.blocks if id(b) not in shown and not (isinstance(b, Note) and b.kind == "caution"))
    return Arranged(picture=picture, blocks=blocks, rest=rest)


def _empty(block: Block) -> bool:
    return isinstance(block, Table) and block.nothing


def halves(blocks: Sequence[Block]) -> tuple[bool, ...]:
    """Which blocks take half a column: all but notes and those in `FULL`, and none alone in its row."""
    half = [not isinstance(block, Note) and block.uid not in FULL for block in blocks]
    if any(pair(block) for block in blocks):  # three in a row: what is left over stands alone in its size
        return tuple(half)
    run = 0
    for n, one in enumerate([*half, False]):
        if not one and run % 2:
            half[n - 1] = False
        run = run + 1 if one else 0
    return tuple(half)


def pair(block: Block) -> bool:
    """One of the small pictures of a change, all of one size."""
    return isinstance(block, Drawing) and block.uid.startswith("changes_") and block.uid.endswith("_weather")


def _wanted(order: Iterable[str], there: Mapping[str, object]) -> list[str]:
    out: list[str] = []
    for several in order:
        name = next((one for one in several.split("|") if one in there), several)
        begin, star, end = name.partition("*")
        found = [uid for uid in there if star and uid.startswith(begin) and uid.endswith(end)]
        out += [uid for uid in (found if star else [name]) if uid in there and uid not in out]
    return out


def in_short(lead: str, most: int = LEAD_WORDS) -> tuple[str, str]:
    """The first sentences of a lead that fit so many words, and what is left of it."""
    if len(lead.split()) <= most:
        return lead, ""
    sentences = lead.split(". ")
    kept: list[str] = []
    while sentences and len(" ".join([*kept, sentences[0]]).split()) <= most:
        kept.append(sentences.pop(0))
    short = ". ".join(kept)
    return (f"{short}." if short else ""), ". ".join(sentences)
