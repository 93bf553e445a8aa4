"""What is wrong with a plan, answers, or what is told first: by the rules of counsel, over any season."""

from __future__ import annotations

import datetime as dt
from itertools import combinations

from counsel.sentences import faults

from reportgen.counsel.brief import words_in
from reportgen.counsel.grounds import PlanStep
from reportgen.counsel.next_season import next_season, rest_of_season
from reportgen.counsel.steps import ROWS
from reportgen.review import Review

EARLIEST_SOWING = dt.timedelta(days=240)  # before the season: parsley for winter is sown in spring
KEPT = {"keep", "keep with a condition"}
UNDONE = {"leave undone", "not again", "not while that burns here", "not worth it"}


def wrong_plan(review: Review) -> list[str]:
    """Every fault of the plan of a season."""
    plan = review.counsel.plan
    order = [ROWS.index(step.row) for step in plan]
    found = [] if order == sorted(order) else ["rows out of order"]
    found += ["more than ten"] if len(plan) > 10 else []
    found += [f"more than three of {row}" for row in ROWS if sum(s.row == row for s in plan) > 3]
    found += ["more than two trials"] if sum(bool(s.nights) for s in plan) > 2 else []
    found += [f"{s.what}: {fault}" for s in plan for fault in _wrong_step(s, review)]
    found += [f"{a.what} against {b.what}" for a, b in combinations(plan, 2) if _against(a, b)]
    return found


def _wrong_step(step: PlanStep, review: Review) -> list[str]:
    ahead, found = next_season(review), []
    earliest = ahead.first - EARLIEST_SOWING if step.row == "Sow" else ahead.first
    rest = rest_of_season(review)  # of a winter that still runs its own days too
    in_rest = rest is not None and rest.first <= step.from_ <= step.to <= rest.last
    if not in_rest and not earliest <= step.from_ <= step.to <= ahead.last:
        found.append(f"from {step.from_} to {step.to} is not in {ahead.first} to {ahead.last}")
    if words_in(step.what) > 8 or words_in(step.why) > 12:
        found.append("too long")
    found += faults(step.what) + faults(step.why)
    verdict = {lever.name: lever.verdict for lever in review.counsel.grounds.levers}.get(step.lever or "")
    allowed = {"Keep": KEPT, "Undo": UNDONE, "Try": {"try on and off", "change once"}}
    if verdict is not None and step.row in allowed and verdict not in allowed[step.row]:
        found.append(f"{step.row} against {verdict}")
    if step.nights and any(a <= night <= b for night, _ in step.nights for a, b in ahead.away):
        found.append("tried while nobody is there")
    return found + _without_caution(step, review)


def _without_caution(step: PlanStep, review: Review) -> list[str]:
    """Envelope or heater in a house in which something burns: never without its caution."""
    burns = any(source.fuel != "electricity" for source in review.season.heating)
    lever = next((lv for lv in review.counsel.grounds.levers if lv.name == step.lever), None)
    touched = set(lever.touches) if lever is not None else set()
    if burns and touched & {"envelope", "heater"} and not step.caution:
        return ["no caution"]
    return []


def _against(a: PlanStep, b: PlanStep) -> bool:
    """Two rows on one lever, or two trials at once."""
    same = a.lever is not None and a.lever == b.lever
    both = bool(a.nights) and bool(b.nights)
    near = both and a.from_ <= b.to + dt.timedelta(days=10) and b.from_ <= a.to + dt.timedelta(days=10)
    return same or near or (a.row, a.what) == (b.row, b.what)


def wrong_words(review: Review) -> list[str]:
    """Every fault of the answers and of what is told first."""
    found = []
    for answer in review.counsel.answers:
        if words_in(answer.why) > 25 or not answer.answer or len(answer.answer.split()) > 6 or not answer.why:
            found.append(f"answer: {answer.answer} | {answer.why}")
        found += [f"{text}: {f}" for text in (answer.answer, answer.why, answer.sure) for f in faults(text)]
        if answer.answer == "Cannot tell" and answer.sure:
            found.append(f"sure of what cannot be told: {answer.sure}")
    for told in review.counsel.told:
        if words_in(told.clause) > 15 or words_in(told.words) > 40:
            found.append(f"told: {told.clause} | {told.words}")
        found += [f"{text}: {f}" for text in (told.clause, told.words, told.sure) for f in faults(text)]
    subjects = [told.subject for told in review.counsel.told if told.subject != "safety"]
    if len(subjects) != len(set(subjects)) or len(subjects) > 5:
        found.append(f"told twice: {subjects}")
    return found
