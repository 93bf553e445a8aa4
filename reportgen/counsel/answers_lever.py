"""Answers about a line of the diary: the verdict of its lever in a word, both sides, how sure."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from reportgen.counsel.brief import begun, cut, fitted, heater, short, words_in
from reportgen.counsel.events_tight import shuts
from reportgen.counsel.grounds import Answer, AnswerWord, Grounds, JudgedLever, LeverVerdict
from reportgen.counsel.next_season import quiet_until, still_quiet
from reportgen.counsel.results import Results
from reportgen.counsel.sides import hoped_words, money_words, power_words, price_words
from reportgen.counsel.surely import lever_sure
from reportgen.counsel.touched import caution_of_lever, unvented
from reportgen.effects.estimate import OUTDOOR_LOGGER
from reportgen.readings.lever_types import Asked
from reportgen.readings.types import DiaryEntry
from reportgen.wording import Wording, day, listed, number

WHY_WORDS = 25
# A question that asks for the lever to go: a bare Yes or No would answer the other one.
GOING = re.compile(r"\b(undo|off|open|remove|without|stop|down|untape|away|rid)\b", re.I)
# Too few nights on one side, with all that was asked of them: (only 5 nights) (after) …; at least (7) are needed.
FEW = re.compile(r"(no night|only \d+ nights?) (before|after|on|off)\b.*?; at least (\d+) are needed")
WORDS: Mapping[LeverVerdict, AnswerWord] = MappingProxyType(
    {
        "keep": "Yes",
        "keep with a condition": "Yes",
        "not worth it": "At most a little",
        "try on and off": "Perhaps",
        "change once": "Perhaps",
        "cannot tell": "Cannot tell",
        "not judged": "Cannot tell",
    }
)
UNDONE: tuple[LeverVerdict, ...] = ("leave undone", "not again", "not while that burns here")


def about_line(r: Results, on: Grounds, asked: Asked) -> Answer:
    """The lever's answer; of a line that is no lever, why there is none."""
    lever = on.lever_of(asked.line) if asked.line is not None else None
    if lever is None:
        return _no_lever(r, asked)
    return Answer(
        ask=asked.ask,
        about=lever.name,
        answer=lever_word(lever, asked.ask),
        why=lever_why(r, lever),
        sure=lever_sure(lever),
        page="changes",
        caution=caution_of_lever(r, lever),
    )


def lever_word(lever: JudgedLever, ask: str = "") -> str:
    """One to four words; what is undone is told so whichever way round it was asked."""
    if lever.verdict in UNDONE:
        return "Take it off" if lever.on_now else f"Leave {_named(lever, ask)} off"
    word = WORDS.get(lever.verdict, "Cannot tell")
    if word != "Yes":
        return word
    if GOING.search(ask):
        return "Keep it"
    return f"{_limit(lever)}, yes" if _limit(lever) else "Yes"


def _named(lever: JudgedLever, ask: str) -> str:
    """it, where the question names it; else the last word of what the diary calls it: the tape of “vent tape”."""
    word = (lever.thing or "").split(" ")[-1].casefold()
    return "it" if not word or word in ask.casefold() else f"the {word}"


def _limit(lever: JudgedLever) -> str:
    """What the yes is limited to, where another side speaks against it or money is all that was judged."""
    if not lever.price and lever.condition is None:
        return ""
    return "In money" if lever.saves_heat else f"For {lever.hoped}" if lever.hoped else ""


def lever_why(r: Results, lever: JudgedLever) -> str:
    """Both sides in at most 25 words, and what limits the verdict."""
    off = lever.verdict in UNDONE
    w = Wording.of(r.season)
    hoped = hoped_words(r, lever, off=off)
    if not hoped:
        return begun(cut(_untold(r, lever), WHY_WORDS))
    money = [words for words in (money_words(lever, w), _for_power(r, lever)) if words]
    gain = ", ".join([hoped, *money]) if not off else hoped
    price = ", ".join(price_words(r, lever, off=off))
    warning = _warning(r, lever)
    parts = (gain, price, warning, _open_end(lever), _afterwards(r, lever), _pays(lever))
    words = fitted(_lead(lever, parts), WHY_WORDS)
    if warning and warning not in words:  # safety is never what is left out
        rest = fitted((part for part in _lead(lever, parts) if part != warning), WHY_WORDS - words_in(warning))
        words = f"{rest}; {warning}"
    return begun(words)


def _for_power(r: Results, lever: JudgedLever) -> str:
    power = power_words(r, lever)
    return f"for {power}" if power else ""


def _lead(lever: JudgedLever, parts: tuple[str, ...]) -> tuple[str, ...]:
    """Safety stands before the figures where it is the reason."""
    without = f"without the {short(lever.thing or lever.name, 2)} {parts[0]}"
    if lever.verdict in ("not again", "not while that burns here"):
        return (parts[2], without, *parts[1:2])
    return (without, *parts[1:]) if lever.verdict in UNDONE else parts


def _warning(r: Results, lever: JudgedLever) -> str:
    """What burns in it and must not be shut in."""
    if lever.unsafe_with:
        return _never_lit(lever)
    tight = shuts(lever.name, lever.touches, (lever.hoped or "",))
    tight |= "air" in lever.touches and lever.undone_in_season  # what is undone of an opening shuts it
    fuels = sorted({source.fuel.replace("_", " ").replace("propane", "gas") for source in unvented(r)})
    return f"never sealed with {listed(fuels, 2)} lit" if fuels and tight and lever.verdict in UNDONE else ""


def _never_lit(lever: JudgedLever) -> str:
    """Never with the gas heater lit. Where it is the whole reason and season.toml leaves its flue open, that too."""
    lit = f"never with the {listed(dict.fromkeys(heater(name, 2) for name in lever.unsafe_with), 2)} lit"
    if not lever.flue_unsaid or lever.verdict not in UNDONE:
        return lit
    return f"{lit} unless {'it has' if len(lever.unsafe_with) == 1 else 'they have'} a flue"


def _open_end(lever: JudgedLever) -> str:
    """What is still open."""
    told = {
        "try on and off": "perhaps nothing; a trial can tell",
        "change once": "perhaps nothing; change it once more",
    }
    return told.get(lever.verdict, "")


def _afterwards(r: Results, lever: JudgedLever) -> str:
    """A hope that was only named when the bad weeks were over: better ones follow anyway."""
    changes = [change for change in r.effects.changes if change.line in lever.lines[:1]]
    late = any(change.hope_written_before is False for change in changes)
    return "hoped for only afterwards, and bad weeks are followed by better ones" if late else ""


def _pays(lever: JudgedLever) -> str:
    ends = lever.payback_winters
    if ends is None or ends.low is None or lever.cost is None or not lever.saves_heat or lever.spared_money is None:
        return ""
    soon = f"paid back from {number(ends.low, 1)}\u00a0winters"
    return (
        f"{soon}, perhaps never" if ends.high is None else f"paid back in {number(ends.high, 1)}\u00a0winters at most"
    )


def _untold(r: Results, lever: JudgedLever) -> str:
    """The reason where nothing was measured and what would tell; safety is never what is left out, and stands first
    where it is the reason."""
    warning = _never_lit(lever) if lever.unsafe_with else ""
    room = WHY_WORDS - words_in(warning)
    reason, tell = _reason(lever), _would_tell(r, lever)
    whole = "; ".join(part for part in (reason, tell) if part)
    if words_in(whole) > room and (few := FEW.match(reason)):
        reason = f"{few[1]} {few[2]} {'so far' if r.season.so_far else 'count'}, {few[3]} are needed"
    if words_in(reason) > room:  # rather without what it takes than broken off in it
        reason = reason.partition(": ")[0]
    told = cut(fitted((reason, _known_beside(r, lever), tell), room), room)
    parts = (warning, told) if lever.verdict in UNDONE else (told, warning)
    return "; ".join(part for part in parts if part)


def _known_beside(r: Results, lever: JudgedLever) -> str:
    """What it did for the worse beyond what matters, though what was hoped for cannot be told."""
    known = any(side.beyond_care for side in lever.price) and lever.verdict not in ("not judged", *UNDONE)
    return f"with it {price_words(r, lever)[0]}" if known and price_words(r, lever) else ""


def _would_tell(r: Results, lever: JudgedLever) -> str:
    """From when it may be told, of a winter that still runs; else what would have made it answerable."""
    quiet = [quiet_until(entry) for entry in still_quiet(r) if entry.line in lever.lines]
    if quiet:
        return f"from {day(max(quiet))} on it may be told"
    own = (change.declared for change in r.effects.changes if change.line in lever.lines)
    wanted = next((hoped.answerable for hoped in own if hoped is not None and hoped.answerable), "")
    wanted = "one in the shade" if wanted == OUTDOOR_LOGGER and "outdoor logger" in _reason(lever) else wanted
    return f"wanted: {wanted}" if wanted and lever.verdict != "not judged" else ""


def _reason(lever: JudgedLever) -> str:
    if lever.verdict == "not judged":
        return lever.reasons.get("verdict") or "the diary does not say what it was hoped to do"
    keys = ("verdict", "effect", "outcome", "low")
    return next((lever.reasons[key] for key in keys if lever.reasons.get(key)), "it could not be set side by side")


def _no_lever(r: Results, asked: Asked) -> Answer:
    entry = next((e for e in r.readings.diary if e.line == asked.line), None)
    why = "the diary has no such line"
    if entry is not None:
        why = _entry_why(r, entry)
    return Answer(
        ask=asked.ask,
        about=entry.what if entry is not None else "",
        answer="Cannot tell",
        why=begun(cut(why, WHY_WORDS)),
        sure="",
        page="changes",
    )


def _entry_why(r: Results, entry: DiaryEntry) -> str:
    kinds = {
        "idea": "an idea, not done yet: nothing was measured",
        "event": "an event, nothing that can be set: its days are left out of every comparison",
        "away": "a time away: nothing was changed",
        "upkeep": "upkeep that alters nothing of the house",
    }
    return kinds.get(entry.kind, "the line lies outside the season or says nothing that can be set")
