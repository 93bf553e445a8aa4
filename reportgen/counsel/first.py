"""What is said first: safety, uncounted, then five. They are the words of every short form of the review."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.counsel import cautions
from reportgen.counsel.answers_lever import UNDONE, lever_why, lever_word
from reportgen.counsel.answers_topics import failure_words, hold_word, hold_words, spares_words, weeks_worth
from reportgen.counsel.brief import begun, cut, fitted, heater, lowered, short
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Event, Grounds, JudgedLever, Told
from reportgen.counsel.results import Results
from reportgen.counsel.said_balance import per_kg_words, total_money, total_words, weeks_clause, weeks_words
from reportgen.counsel.said_events import clause, quoted_lines, safety_clause, sentence
from reportgen.counsel.sides import hoped_words, price_words
from reportgen.counsel.surely import COUNTED, lever_sure
from reportgen.counsel.touched import caution_of_lever, flue_words, joined, unvented
from reportgen.wording import listed

CLAUSE_WORDS, MOST_WORDS = 15, 40


def told_first(r: Results, on: Grounds) -> tuple[Told, ...]:
    """Safety first; then the worst event, the weeks, the lever, the lever undone, the hold: those that there are."""
    facts = Facts.of(r)
    return (*_safety(facts, on), *_event(facts, on), *_weeks(facts, on), *_levers(r, on), *_hold(facts, on))


def _told(subject: str, clause_: str, words: str, sure: str, page: str, **more: str | None) -> Told:
    text = begun(cut(words.rstrip("."), MOST_WORDS))
    return Told(
        subject=subject,  # type: ignore[arg-type]  # a literal at every call
        clause=begun(cut(clause_.rstrip("."), CLAUSE_WORDS)),
        words=text if text.endswith("…") else f"{text}.",
        sure=sure,
        page=page,
        **more,
    )


def _safety(facts: Facts, on: Grounds) -> Iterator[Told]:
    for event in on.events:
        if event.kind == "safety":
            diary = f"the diary: {quoted_lines(event)[0]}" if event.diary else ""
            asked = flue_words(heater(event.source)) if event.source and event.flue_unsaid else ""
            words = fitted((safety_clause(event), asked, diary), MOST_WORDS)
            yield _told("safety", safety_clause(event), words, _written(event), "heat", caution=_care(facts, event))


def _written(event: Event) -> str:
    if event.flue_unsaid:
        return "Cannot tell: whether it has a flue is not written down."
    return "Sure: it stands in your own books." if event.diary or event.source else ""


def _care(facts: Facts, event: Event) -> str:
    """Of what burns, and of what failed."""
    burns = bool(unvented(facts.r))
    parts = [cautions.FUEL if burns else "", cautions.SEAL if burns and event.levers else "", cautions.ALONE]
    if "electricity" in facts.fuels:
        parts.append(cautions.MAINS)
    return joined(parts) or cautions.ALONE


def _event(facts: Facts, on: Grounds) -> Iterator[Told]:
    worst = next((event for event in on.events if event.kind != "safety"), None)
    if worst is not None:
        page = "harvest" if worst.kind == "loss" else "frost"
        yield _told("event", clause(worst, facts.w), sentence(worst, facts.w), COUNTED, page)


def _weeks(facts: Facts, on: Grounds) -> Iterator[Told]:
    answer = weeks_worth("", facts, on)
    balance, w = on.balance, facts.w
    if answer.answer == "Cannot tell":
        yield from _balance_alone(facts, on, answer.why)
        return
    taken = "" if balance.total is None or not w.currency else f"{total_money(balance, w)} in all"
    parts = (weeks_words(balance, facts), f"{taken}: {total_words(balance, w)}" if taken else "")
    yield _told("weeks", weeks_clause(balance), fitted(parts, MOST_WORDS), answer.sure, answer.page)


def _balance_alone(facts: Facts, on: Grounds, why: str) -> Iterator[Told]:
    """What it cost in all, where it cannot be told which weeks were worth their heat."""
    balance, w = on.balance, facts.w
    if balance.total is None or not w.currency or not total_words(balance, w):
        return
    each = per_kg_words(balance, facts)
    clause_ = fitted((f"{total_money(balance, w)} in all", each.partition(";")[0]), CLAUSE_WORDS, ", ")
    parts = (f"{total_money(balance, w)} in all: {total_words(balance, w)}", each)
    weeks = f"which weeks were worth heating cannot be told: {lowered(why)}" if why and facts.r.season.heating else ""
    yield _told("weeks", clause_, fitted((*parts, weeks), MOST_WORDS), COUNTED, "harvest")


def _levers(r: Results, on: Grounds) -> Iterator[Told]:
    """The lever that is first by its unfavourable end, then the first of those that were undone in-season."""
    told = [lever for lever in on.levers if lever.effect is not None or lever.verdict in UNDONE]
    # What only its burner speaks against is told by the safety line above it.
    first = next((lever for lever in told if not lever.undone_in_season and not _only_unsafe(lever)), None)
    undone = next((lever for lever in told if lever.undone_in_season), None)
    if first is not None:
        yield _lever(r, first, "lever")
    if undone is not None:
        yield _lever(r, undone, "undone")


def _lever(r: Results, lever: JudgedLever, subject: str) -> Told:
    off = lever.verdict in UNDONE
    thing = lever.thing
    if thing and set(lever.touches) == {"thermostat"} and lever.saves_heat:
        thing = f"{thing} down"  # with a thermostat there is no less heat
    name = short(thing or lever.name)
    gain = "" if _holds_zero(lever) else hoped_words(r, lever, off=off)
    named = f"the {lowered(name)}" if thing else f"“{name}”"  # a line of the diary is no name of a thing
    head = f"{'Without' if off else 'With'} {named}"
    price = price_words(r, lever, off=off)[:1]
    clause_ = fitted((f"{head} {gain}", *price), CLAUSE_WORDS, ", ") if gain else f"{name}: {_word(lever)}"
    words = fitted((f"{begun(name)}: {lowered(lever_word(lever))}", lowered(lever_why(r, lever))), MOST_WORDS)
    return _told(
        subject, clause_, words, lever_sure(lever), "changes", lever=lever.name, caution=caution_of_lever(r, lever)
    )


def _only_unsafe(lever: JudgedLever) -> bool:
    """What burns beside it speaks against it, and no figure does."""
    return bool(lever.unsafe_with) and lever.verdict in UNDONE and _holds_zero(lever)


def _holds_zero(lever: JudgedLever) -> bool:
    """Whether its interval leaves the direction open: then it is no headline, its verdict is."""
    return lever.low is None or lever.high is None or lever.low < 0 < lever.high


def _word(lever: JudgedLever) -> str:
    if _only_unsafe(lever):
        return f"not with the {listed(dict.fromkeys(heater(name, 2) for name in lever.unsafe_with), 2)} lit"
    return lever_word(lever)


def _hold(facts: Facts, on: Grounds) -> Iterator[Told]:
    advice, w = on.hold_advice, facts.w
    if not facts.r.season.heating or (advice.down_by_k is None and not advice.unknown_crops):
        return
    word, sure = hold_word(advice, w)
    open_ = listed(dict.fromkeys(short(name, 2) for name in advice.unknown_crops), 2)
    limit = f"no limit is known for {open_}" if open_ else ""
    heads = {"No": "Not held cooler", "Perhaps": "Perhaps held cooler"}
    clause_ = fitted((heads.get(word, f"Held cooler: {lowered(word)}"), limit), CLAUSE_WORDS, ": ")
    words = fitted(
        (f"held cooler: {lowered(word)}", hold_words(advice, w), spares_words(facts, on), failure_words(on), limit),
        MOST_WORDS,
    )
    yield _told("hold", clause_, words, sure, "heat", caution=cautions.heating(facts.fuels) or None)
