"""What is incoherent in a review: each rule gives every fault that it finds in what is said; none where all agrees."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from itertools import combinations
from typing import Any

from said_rules import no_english

from reportgen.counsel.changes import KEPT, UNDONE
from reportgen.counsel.frost import FAR_K
from reportgen.counsel.kinds import kind_of

Rule = Callable[[Any], list[str]]
BACK = re.compile(r"\b(?:it|its|them|they|such|those|these)\b", re.I)
THAT = re.compile(r"\bthat (?:place|week|crop|night|time|spell|weather)\b|\bnights like that\b", re.I)
SPACES = str.maketrans({"\u00a0": " ", "\u202f": ""})  # thousands lose their narrow space
NUMBER = re.compile(r"[−]?\d+(?:\.\d+)?")
MONEY = re.compile(r"\b[A-Z]{3} (\d+(?:\.\d+)?)")
NO_STEP = re.compile(r"\b(?:look|read|go through|see)\b (?:at|the|through|that|under|first)", re.I)
MEASURED = re.compile(r"simulated|study|made-up", re.I)
# What a caution is about → words of which one stands in the advice, the claim or what it is about.
TOUCHES: Mapping[str, str] = {
    "carbon monoxide": "burn|heat|flue|fuel|delivery|gas|fumes",
    "residual-current": "heat|lamp|dehumidifier|power|electric|trade|supply|light",
    "runs with nobody near": "heater|lamp|alone|light|fleece",
    "roof that carries snow": "clean|wash|cover|glaz",
    "Never seal a space": "keep|seal|gap|close|tight|film|undo",
    "by its label": "mould|pest|rot|wider",
}
# A figure that several sentences name → how its number is found in them.
FIGURES: Mapping[str, str] = {
    "what it all cost": r"(?:In all this \w+ cost [A-Z]{3} (\d+(?:\.\d+)?)|[A-Z]{3} (\d+(?:\.\d+)?) in all)",
    "coldest crop air": r"(?:[Nn]ever colder than|coldest moment(?: on record)? was) ([−]?\d+(?:\.\d+)?) °",
}


def plain(text: str) -> str:
    """With ordinary spaces, and without the grower's own words."""
    return re.sub("“[^”]*”", "“…”", text.translate(SPACES))


def texts(finding: Any) -> tuple[str, ...]:
    """All of a finding that a page prints, but for its caution."""
    return finding.claim, finding.evidence, finding.how_sure, finding.next_step


def sentences(text: str) -> Iterator[str]:
    """Its sentences of four words and more."""
    for one in re.split(r"(?<=[.?])\s+", text.translate(SPACES)):
        if len(one.split()) >= 4:
            yield one


def every_text(review: Any) -> list[str]:
    """What the findings, the plan, the answers and the first words say."""
    said = [text for f in review.findings for text in texts(f)]
    said += [text for step in review.counsel.plan for text in (step.what, step.why)]
    said += [text for a in review.counsel.answers for text in (a.answer, a.why)]
    return said + [text for told in review.counsel.told for text in (told.clause, told.words)]


def one_verdict(review: Any) -> list[str]:
    """A finding on a lever says its verdict word for word, is of the kind of that verdict, and is the only one."""
    verdicts = {lever.name: lever.verdict for lever in review.counsel.grounds.levers}
    own = [f for f in review.findings if f.page == "changes" and f.about in verdicts and f.slug != "cannot-tell"]
    wrong = [f"{f.slug}: not {verdicts[f.about]}" for f in own if f": {verdicts[f.about]}" not in f.claim]
    for f in own:
        allowed = KEPT if f.slug.startswith("worth") else UNDONE if f.slug.startswith("better") else {"not worth it"}
        wrong += [f"{f.slug} of {verdicts[f.about]}"] if verdicts[f.about] not in allowed else []
    twice = [slug for slug, n in Counter(f.slug for f in own).items() if n > 1]
    return wrong + [f"{slug} twice" for slug in twice]


def printed_sums(review: Any) -> list[str]:
    """The parts of the balance, as printed, make the printed whole."""
    wrong = []
    for f in review.findings:
        if f.slug == "the-balance" and " for heat" in f.evidence:
            told = f"{f.claim} {f.evidence}".translate(SPACES)
            whole = re.search(FIGURES["what it all cost"], told)
            parts = next((s for s in re.split(r"(?<=[.:]) ", told) if " for heat" in s and MONEY.search(s)), "")
            amounts = [float(m) for m in MONEY.findall(parts)]
            if whole and amounts and abs(sum(amounts) - float(whole[1] or whole[2])) > 0.005:
                wrong.append(f"{amounts} is not {whole[0]}")
    return wrong


def one_value(review: Any) -> list[str]:
    """One figure has one value in all sentences, as far as they are rounded."""
    wrong = []
    for name, pattern in FIGURES.items():
        found = [m for text in every_text(review) for m in re.finditer(pattern, text.translate(SPACES))]
        numbers = [next(g for g in m.groups() if g) for m in found]
        values = [(float(n.replace("−", "-")), 0.5 * 10.0 ** -len(n.partition(".")[2])) for n in numbers]
        wrong += [f"{name}: {a[0]} and {b[0]}" for a, b in combinations(values, 2) if abs(a[0] - b[0]) > a[1] + b[1]]
    return wrong


def no_sentence_twice(review: Any) -> list[str]:
    """No two findings of a page say the same sentence; how sure may be said alike of two of one kind."""
    pages: dict[str, Counter[str]] = {}
    sure: dict[str, dict[str, set[str]]] = {}
    for f in review.findings:
        own = {one for text in (f.claim, f.evidence, f.next_step) for one in sentences(text)}
        pages.setdefault(f.page, Counter()).update(own)
        for one in sentences(f.how_sure):
            sure.setdefault(f.page, {}).setdefault(one, set()).add(re.sub(r"-\d+$", "", f.slug))
    wrong = [f"{page}: {one}" for page, counts in pages.items() for one, n in counts.items() if n > 1]
    return wrong + [f"{page}: {one}" for page, told in sure.items() for one, kinds in told.items() if len(kinds) > 1]


def sure_as_defined(review: Any) -> list[str]:
    """Nine in ten and fairly sure say what they were measured on; *sure* leans on no simulated house."""
    wrong = []
    for f in review.findings:
        measured = bool(MEASURED.search(f.how_sure))
        if f.sure in ("nine in ten", "fairly sure") and not measured:
            wrong.append(f"{f.slug}: {f.how_sure}")
        if f.sure == "sure" and measured:
            wrong.append(f"{f.slug}: {f.how_sure}")
    return wrong


def far_from_the_line(review: Any) -> list[str]:
    """A margin of more than five kelvin is *never colder than*, not how close it came."""
    margin = review.frost.minimum.margin_k
    claims = [f.claim for f in review.findings if f.slug == "coldest-moment"]
    far = margin is not None and margin > FAR_K
    return [claim for claim in claims if claim.startswith("It was never colder than") is not far]


def something_to_do(review: Any) -> list[str]:
    """No next step is to look at or to read."""
    return [f"{f.slug}: {f.next_step}" for f in review.findings if NO_STEP.search(plain(f.next_step))]


def stands_alone(review: Any) -> list[str]:
    """A next step is read in a list without its finding: it names what it is about (levers are named there)."""
    steps = [f.next_step for f in review.findings if f.page != "changes" or not f.about]
    return [step for step in steps if BACK.search(" ".join(step.split()[:4])) or THAT.search(step)]


def own_caution(review: Any) -> list[str]:
    """A caution stands only where the advice touches what it is about, and no caution stands beside most findings."""
    wrong = []
    for f in review.findings:
        advice = f"{f.claim} {f.next_step} {f.about or ''}".casefold()
        for mark, words in TOUCHES.items():
            if mark in (f.caution or "") and not re.search(words, advice):
                wrong.append(f"{f.slug}: {mark}")
    held = Counter(f.caution for f in review.findings if f.caution)
    many = [words[:40] for words, n in held.items() if n > 2 and n > len(review.findings) / 2]
    return wrong + many


def english(review: Any) -> list[str]:
    """Numbers agree with their nouns; no zero with a decimal for a count."""
    said = [plain(text) for text in every_text(review)]
    wrong = [f"{fault} in: {text}" for text in said for fault in no_english(text)]
    return wrong + [text for text in said if re.search(r"(?<![\d.,−])0\.0 (?:days|weeks|winters|nights)\b", text)]


def in_order(review: Any) -> list[str]:
    """Ranks count up, safety comes first, and each finding stands on the page of its kind."""
    wrong = [f.slug for n, f in enumerate(review.findings) if f.rank != n]
    safe = [f.stake == "safety" for f in review.findings]
    wrong += ["safety not first"] if safe != sorted(safe, reverse=True) else []
    return wrong + [f.slug for f in review.findings if kind_of(f.slug).page != f.page]


def told_first_is_told(review: Any) -> list[str]:
    """A lever that every short form names has a finding of its own, and is the first of its subject there."""
    wrong = []
    for told in review.counsel.told:
        if told.lever is not None and told.subject in ("lever", "undone"):
            own = [f for f in review.findings if f.about == told.lever and f.page == "changes"]
            wrong += [] if own or told.lever in _open(review) else [f"{told.subject}: {told.lever} is nowhere told"]
    return wrong


def _open(review: Any) -> set[str]:
    told = KEPT | UNDONE | {"not worth it"}
    return {lever.name for lever in review.counsel.grounds.levers if lever.verdict not in told}


RULES: tuple[Rule, ...] = (
    one_verdict,
    printed_sums,
    one_value,
    no_sentence_twice,
    sure_as_defined,
    far_from_the_line,
    something_to_do,
    stands_alone,
    own_caution,
    english,
    in_order,
    told_first_is_told,
)


def incoherent(review: Any) -> dict[str, list[str]]:
    """Every fault by its rule."""
    return {rule.__name__: faults for rule in RULES if (faults := rule(review))}
