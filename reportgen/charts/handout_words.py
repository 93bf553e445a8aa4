"""The words of the handout: its heading, titles by rule, the plan in short, how we know, and what to take care of."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from datetime import date
from typing import get_args

from reportgen.charts.effects_view import in_words
from reportgen.charts.handout_parts import Answered, PlanLine, Warned
from reportgen.charts.plain_names import plain
from reportgen.charts.timeline import brief_day
from reportgen.counsel import cautions
from reportgen.counsel.brief import short
from reportgen.counsel.grounds import PlanRow, PlanStep
from reportgen.counsel.next_season import rest_of_season
from reportgen.drawing.effects import Effects, Row
from reportgen.drawing.ink import Mark
from reportgen.drawing.kilogram import Kilogram
from reportgen.drawing.pen import isolated
from reportgen.drawing.season_types import Season
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, day, number

CLAUSES, ANSWERS = 3, 3
NAMED, NAME = 3, 32  # refused changes that are named, and letters of a name
TIMES = re.compile(rf" \(\d+{NBSP}times\)$")
ENDS = re.compile(rf"\d{NBSP}?[ ]?[A-Z][a-z]+$")  # a date told already
SHORTLY = "The cautions above are, in short, the usual guidance of fire, gas and electrical safety bodies."
WHOSE = "This is the usual guidance of fire, gas and electrical safety bodies."
GUIDANCE = re.compile(r" \(the usual guidance of [^)]*\)")
DOUBT = f"Weather taken out. Dark: most likely; pale: 95{NBSP}% of what may be."
SIGNS: tuple[tuple[Mark, str], ...] = (
    ("helped", "● helped"),
    ("opposite", "■ did the opposite"),
    ("open", "○ cannot tell, or no sign"),
    ("none", "• not judged"),
)
DATED: tuple[PlanRow, ...] = ("Before the frost", "Sow", "Try", "Buy or put by")  # the others hold all season
NO_LOGGER = (
    "No logger? A thermometer that keeps the lowest, read and reset each morning, already tells how close it came. "
    "Write the date of everything you change, one thing at a time; weigh what you pick (common practice, no source)."
)


def clauses_of(review: Review) -> tuple[str, ...]:
    """The first clauses of what is told first, a sentence each; without any what is on record."""
    clauses = [one.clause for one in review.counsel.told if one.subject != "safety"][:CLAUSES]
    if clauses:
        return tuple(_ended(clause) for clause in clauses)
    season = review.season
    days = count((season.last_day - season.first_day).days + 1, "day")
    empty = review.readings.books.get("diary", False) and not review.effects.changes
    kept = ", no change noted" if empty else ""
    return (f"{days} on record, {_span(season.first_day, season.last_day)}{kept}.",)


def _span(first: date, last: date) -> str:
    return day(first, year=True) if first == last else f"{day(first, year=True)} to {day(last, year=True)}"


def _plain(words: str) -> str:
    """Books for files: whoever reads the sheet has never seen the folder."""
    return plain(re.sub(r",? in (?:diary|harvest|plantings|costs)\.csv", "", words))


def _ended(words: str) -> str:
    words = _plain(words)
    return words if words.endswith(("…", ".", "?")) else f"{words}."


def safety_of(review: Review) -> tuple[Warned, ...]:
    """Told before anything else, each with its caution."""
    told = (one for one in review.counsel.told if one.subject == "safety")
    return tuple(Warned(words=_ended(one.clause), caution=_brief(one.caution)) for one in told)


def _brief(words: str | None) -> str:
    """The caution in a few words; one that has none stands in full."""
    return (cautions.brief(words) or words) if words else ""


def answers_of(review: Review) -> tuple[Answered, ...]:
    """The first three."""
    return tuple(
        Answered(ask=one.ask, answer=one.answer, why=_ended(one.why), sure=_plain(one.sure))
        for one in review.counsel.answers[:ANSWERS]
    )


def season_title(review: Review, view: Season) -> str:
    """On how many nights it was below the frost line outdoors and inside."""
    w, line = Wording.of(review.season), review.frost.line_c
    nights = view.nights
    if nights is None:
        return f"One {There.of(review.readings).season}, day by day"
    inside = count(len(nights.rings), "night")
    edge = w.temp(line, 0 if float(line).is_integer() or w.us else 1)
    outdoors = [v for v in nights.outdoors if v is not None]
    if not outdoors:
        return f"Below {edge}: inside on {inside}"
    out = sum(v < w.temp_value(line) for v in outdoors)
    return f"Below {edge}: outdoors on {count(out, 'night')}, inside on {number(len(nights.rings)) or 'none'}"


def season_sub(view: Season) -> str:
    """What is plotted, and the signs of the lines that fall through it."""
    parts = ["Coldest of each night"] if view.nights is not None else []
    if view.nights is not None and view.nights.outdoors:
        parts[0] += "; shaded: what sun, bed and heat added"
    signs = [words for mark, words in SIGNS if any(line.mark == mark for line in view.lines)]
    if signs:
        parts.append(f"Dotted lines are changes: {', '.join(signs)}")
    if view.dark:
        parts.append(view.dark_brief)
    return f"{'. '.join(parts)}." if parts else ""


def changes_title(view: Effects) -> str:
    """What we changed: 3 helped, 1 did the opposite, 4 cannot be told."""
    return f"What we changed: {in_words(view)}"


def refused_words(rows: Sequence[Row]) -> str:
    """What cannot be compared and why, in one sentence; empty where all was."""
    if not rows:
        return ""
    named = [f"{named_short(row.words)} ({row.refused})" for row in rows[:NAMED]]
    more = [f"{number(len(rows) - NAMED)} more"] if len(rows) > NAMED else []
    return f"Cannot be compared: {', '.join([*named, *more])}."


def named_short(words: str, most: int = NAME) -> str:
    """A name in so many letters, ended at a word, and kept from turning the words beside it around."""
    return isolated(short(TIMES.sub("", words), most, most))


def kilogram_title(review: Review, view: Kilogram) -> str:
    """EUR 12.81 a kilogram."""
    return f"{view.bars[0].said} a {'pound' if Wording.of(review.season).us else 'kilogram'}"


def kilogram_note(review: Review) -> str:
    """What is missing in it."""
    missing = review.counsel.grounds.balance.missing
    return _plain(f"Not in it: {', '.join(missing)}.") if missing else ""


def plan_of(review: Review, *, dates: bool) -> tuple[PlanLine, ...]:
    """The plan row by row, the cautions of a row beside it: in words the first time, then by their first words."""
    out: list[PlanLine] = []
    told = {part for one in safety_of(review) for part in _parts(one.caution)}
    for row in get_args(PlanRow):
        steps = [step for step in review.counsel.plan if step.row == row]
        if steps:
            parts = dict.fromkeys(part for step in steps for part in _parts(_brief(step.caution)))
            caution = beside(tuple(parts), tuple(told))
            told |= parts.keys()
            out.append(PlanLine(row=row, steps=_steps(review, steps, dates), caution=caution, cautions=tuple(parts)))
    return tuple(out)


def _steps(review: Review, steps: Sequence[PlanStep], dates: bool) -> tuple[str, ...]:
    """What to do; where the winter still runs, what is for the next one stands last and is named so."""
    rest = rest_of_season(review)
    later = [step for step in steps if rest is not None and step.from_ > rest.last]
    now = [_step(step, dates) for step in steps if step not in later]
    then = [_step(step, dates) for step in later]
    if then:
        then[0] = f"Next {There.of(review.readings).season}: {then[0][:1].lower()}{then[0][1:]}"
    return (*now, *then)


def beside(cautions_: Sequence[str], told: Collection[str]) -> str:
    """Fumes, mains near water: as above. Never seal a house in which something burns.

    Args:
        cautions_: In a few words each, some of them twice.
        told: Words in which some of them stand already.
    """
    parts, before = dict.fromkeys(cautions_), " ".join(told)
    again = [part.partition(":")[0] for part in parts if part in before and ":" in part]
    new = [part for part in parts if part not in before or ":" not in part]
    above = (
        [f"{', '.join([again[0], *(word[:1].lower() + word[1:] for word in again[1:])])}: as above."] if again else []
    )
    return " ".join([*new, *above])


def _step(step: PlanStep, dates: bool) -> str:
    """What to do; a step of some weeks with its dates. The row's name stands before it and is not said again."""
    what = step.what.removeprefix(f"{step.row.split(' or ')[-1].capitalize()} ")
    dated = dates and step.row in DATED and not ENDS.search(what)
    until = f"{NBSP}–{NBSP}{brief_day(step.to)}" if step.to != step.from_ else ""
    when = f" ({brief_day(step.from_)}{until})" if dated else ""
    return _plain(isolated(f"{what[:1].upper()}{what[1:]}") + when)


def _parts(words: str) -> list[str]:
    return [part for part in re.split(r"(?<=\.) +", words) if part]


def how_of(review: Review) -> tuple[str, ...]:
    """What stood where and which books were kept; and what serves without a logger."""
    kinds = {where: {c.logger for c in review.readings.channels if c.where == where} for where in ("crop", "outdoor")}
    parts = []
    if kinds["crop"]:
        parts.append(f"{count(len(kinds['crop']), 'logger')} beside the crops")
    if kinds["outdoor"]:
        parts.append(f"{'one' if len(kinds['outdoor']) == 1 else number(len(kinds['outdoor']))} outdoors")
    parts += list(_books(review))
    line = f"{', '.join(parts)}." if parts else ""
    return tuple(words for words in (line[:1].upper() + line[1:], NO_LOGGER) if words)


def _books(review: Review) -> Iterator[str]:
    if review.readings.diary:
        yield "a diary of what we changed"
    if review.harvest.kg:
        yield "a scale for what we picked"
    if review.heat.kwh:
        yield "a record of the heat"


def care_of(review: Review) -> tuple[str, ...]:
    """Every caution of what the sheet says, once and without its source, the line on local codes last."""
    whole = " ".join(words.replace(cautions.LOCAL, "") for words in _cautions(review))
    short = dict.fromkeys(_parts(GUIDANCE.sub("", whole)))
    return (*short, f"{WHOSE} {cautions.LOCAL}") if short else ()


def care_short(review: Review) -> tuple[str, ...]:
    """Where there is no room for them in full: those that do not stand above in a few words, and whose they are."""
    said = dict.fromkeys(part for words in _cautions(review) for part in _parts(_brief(words)))
    above = {part for one in safety_of(review) for part in _parts(one.caution)}
    above |= {part for step in review.counsel.plan for part in _parts(_brief(step.caution))}
    return (*(part for part in said if part not in above), f"{SHORTLY} {cautions.LOCAL}") if said else ()


def _cautions(review: Review) -> list[str]:
    c = review.counsel
    told = [*(one.caution for one in c.told), *(one.caution for one in c.answers[:ANSWERS])]
    return [words for words in (*told, *(step.caution for step in c.plan)) if words]
