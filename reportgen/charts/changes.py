"""Changes: what each did at equal weather, what the winter's do-nothing dates say, and next winter's trial."""

from __future__ import annotations

from reportgen.charts import changes_draw as draw
from reportgen.charts import changes_overview as overview
from reportgen.charts import changes_tables as tables
from reportgen.charts import changes_trials as trials
from reportgen.charts.effects_view import effects_view, in_words
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.changes import tried
from reportgen.counsel.changes_open import caution
from reportgen.counsel.facts import Facts
from reportgen.effects import measured
from reportgen.effects.verdict import FALSE_SIGN, chance_of_false_sign
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, count, number

MISSING = (
    "With changes in a diary this page would say what each did at equal weather, how sure that is, and whether it can "
    "have paid. From now on write one line in a diary for each change: the date, what you did, what it touches, and "
    "what you hope for"
)
OUTDOORS = "; and keep a logger outdoors"


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
    missing = f"{MISSING}{'' if There.of(review.readings).outdoor_named else OUTDOORS}."
    note = Note(text=f"{why[:1].upper()}{why[1:]}. {missing}", kind="missing", title="Changes")
    plans = tuple(trials.trial_tables(review))
    return Page(
        slug="changes",
        headline="Changes: none to judge",
        lead=missing if not plans else "No change to judge, but an idea to try.",
        blocks=(note, *plans),
        answers=bool(plans),
    )


def _headline(review: Review) -> str:
    """How many levers did what, on and off of one as one; of a single one its name."""
    view = effects_view(review)
    if view is None:
        return "No change in the diary names a hope that a logger can judge"
    rows = [row for group in view.groups for row in group.rows]
    if len(rows) == 1:
        ends = {
            "Helped": "helped",
            "Did the opposite": "did the opposite of what was hoped",
            "No sign": "did nothing that you said would matter",
        }
        return f"“{rows[0].words}” {ends.get(view.groups[0].title, 'cannot be shown to have helped')}"
    return f"Of {count(len(rows), 'thing')} we changed, {in_words(view)}"


def _lead(review: Review) -> str:
    done = len(tried(review.effects.changes))
    return (
        f"{count(done, 'change')} in the diary, each judged on the one thing hoped for, by nights before and after as "
        "if their weather had been the same. On and off of one thing are one estimate."
    )


def _how_sure(review: Review) -> Note:
    judged, winters = review.effects.judged, number(measured.PLACEBO_WINTERS)
    plain, ours = measured.PLAIN_FALSE_SIGNS, measured.FALSE_SIGNS_HOPED
    return Note(
        title="How do you know? Why before and after alone is no evidence",
        text="A mild fortnight looks like a good idea. Weather differs from week to week, and nights in a row are "
        f"alike, so forty nights carry the weight of fewer. In a study of {winters} made-up winters, two thirds of "
        "them in weather that stations recorded, changes that did nothing were put in the diary. Plain means before "
        f"and after saw a change in {_percent(plain.share)} of {number(plain.n)} comparisons where there was none; "
        f"the sum of this page gave a false sign to {number(ours.k)} of {number(ours.n)} ({_percent(ours.share)}) on "
        "what was hoped for. Where something was truly done, its interval held the truth "
        f"{_percent(measured.HELD_TRUTH.share)} of the time.{_false_sign_words(judged)} Where an interval reaches "
        "across zero the honest answer is “cannot tell”, and the bound says how much it can have been worth at most.",
    )


def _percent(share: float) -> str:
    return f"{number(100 * share)}{NBSP}%"


def _false_sign_words(judged: int) -> str:
    """The chance of one false sign on this page, by the rate the method was chosen for and by the study's own."""
    if judged == 0:
        return ""
    low, high = (
        _percent(chance_of_false_sign(judged, rate)) for rate in (FALSE_SIGN, measured.FALSE_SIGNS_HOPED.share)
    )
    were = "was" if judged == 1 else "were"
    return (
        f" {count(judged, 'change')} {were} judged here: the chance that at least one sign on this page is false is "
        f"about {low} to {high}."
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
