"""Changes: what each did at equal weather, what the winter's do-nothing dates say, and next winter's trial."""

from __future__ import annotations

from reportgen.charts import changes_draw as draw
from reportgen.charts import changes_overview as overview
from reportgen.charts import changes_tables as tables
from reportgen.charts import changes_trials as trials
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.findings.changes import caution, tried
from reportgen.findings.facts import Facts
from reportgen.review import Review
from reportgen.wording import NBSP, count, number

MISSING = (
    "With a diary this page would say what each change did at equal weather, how sure that is, and whether it can "
    "have paid. Next winter write one line in diary.csv for each change: the date, what you did, what it touches, and "
    "what you hope for; and keep a logger outdoors."
)


def page(review: Review) -> Page:
    """The page, or the one note where no change stands in the diary."""
    changes = review.effects
    if not tried(changes.changes):
        return _missing(review)
    facts = Facts.of(review)
    blocks: list[Drawing | Table | Note | None] = [
        overview.overview(review),
        tables.rows_table(review),
        _how_sure(review),
    ]
    for n, (change, hoped) in enumerate(overview.measured(review), start=1):
        if hoped.nights is not None:
            blocks += [draw.over_time(review, n, change, hoped), draw.over_weather(review, n, change, hoped)]
    blocks += [tables.refused_table(review), tables.others_table(review)]
    blocks += [*trials.trial_tables(review), _no_trial(review), *_cautions(facts)]
    kept = tuple(block for block in blocks if block is not None)
    return Page(slug="changes", headline=_headline(review), lead=_lead(review), blocks=kept)


def _missing(review: Review) -> Page:
    why = review.effects.reason or "the diary holds no change that was carried out"
    note = Note(text=f"{why[:1].upper()}{why[1:]}. {MISSING}", kind="missing", title="Changes")
    plans = tuple(trials.trial_tables(review))
    return Page(
        slug="changes",
        headline="Changes: none to judge",
        lead=MISSING if not plans else "No change to judge, but an idea to try.",
        blocks=(note, *plans),
        answers=bool(plans),
    )


def _headline(review: Review) -> str:
    done = tried(review.effects.changes)
    by = {word: [c for c in done if c.verdict == word] for word in ("helped", "hurt", "no sign", "cannot tell")}
    if by["helped"] and len(by["helped"]) <= 2:
        names = " and ".join(f"“{change.what}”" for change in by["helped"])
        return f"{names} helped; the rest did not show it" if len(done) > len(by["helped"]) else f"{names} helped"
    if by["helped"]:
        return f"{number(len(by['helped']))} of {count(len(done), 'change')} helped"
    if by["hurt"]:
        return f"{number(len(by['hurt']))} of {count(len(done), 'change')} did the opposite of what was hoped"
    if by["no sign"] and not by["cannot tell"]:
        return "No change did anything that you said would matter"
    return f"Of {count(len(done), 'change')} none can be shown to have helped"


def _lead(review: Review) -> str:
    words = ("helped", "hurt", "no sign", "cannot tell", "not judged")
    names = dict(zip(words, ("helped", "hurt", "with no sign", "cannot be told", "not judged"), strict=True))
    done = tried(review.effects.changes)
    counts = {word: sum(change.verdict == word for change in done) for word in words}
    told = ", ".join(f"{number(n)} {names[word]}" for word, n in counts.items() if n)
    return (
        f"{count(len(done), 'change')} in the diary: {told}. Each is judged on the one thing hoped for, "
        "by comparing the nights before and after as if their weather had been the same."
    )


def _how_sure(review: Review) -> Note:
    judged = review.effects.judged
    chance = round(100 * review.effects.false_sign_chance)
    many = (
        f" {count(judged, 'change')} {'was' if judged == 1 else 'were'} judged here: the chance that at least one sign "
        f"on this page is false is about {number(chance)}{NBSP}%."
        if judged
        else ""
    )
    return Note(
        title="How do you know? Why before and after alone is no evidence",
        text="A mild fortnight looks like a good idea. Weather differs from week to week, and nights in a row are "
        "alike, so forty nights carry the weight of far fewer. In a study of made-up winters in real weather, a plain "
        "before-and-after picture gave a sign to 35 to 53 of 100 changes that did nothing; the method of this page "
        f"gave one to 2 or 3.{many} The interval holds the true effect about 95 times in 100. Where it reaches across "
        "zero the honest answer is “cannot tell”, and the bound says how much it can have been worth at most.",
    )


def _no_trial(review: Review) -> Note | None:
    without = review.effects.no_trial
    if not without:
        return None
    told = "; ".join(f"“{what}”: {why}" for what, why in without.items())
    return Note(title="No trial is proposed for", text=f"{told[:1].upper()}{told[1:]}.")


def _cautions(facts: Facts) -> list[Note]:
    told = [caution(facts, change) for change in facts.r.effects.changes]
    return [
        Note(kind="caution", title="Before you repeat it", text=text) for text in dict.fromkeys(t for t in told if t)
    ]
