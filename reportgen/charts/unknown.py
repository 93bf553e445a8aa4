"""What the winter left open, as sentences that stand alone: the question, why there is no answer, what to log."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from reportgen.charts.types import Page
from reportgen.counsel.types import Finding
from reportgen.measures.frost_cold import CLOSE, HELD
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.measures.there import There
from reportgen.readings.types import PRIVATE

MOST = 8
OFTEN = "Let it write every ten minutes, day and night."
# Reasons that say that a value does not apply to this house or this winter: nothing is open there.
NOT_OPEN = (
    "no cold hour",
    "several holds",
    "the house was not heated",
    "no heater ",
    "no heater is",
    "never ",
    "none in the record",
    "no hour under a hold",
    "no lamp",
)
# … that ask for the same as the question's own advice.
SAYS_WHAT_TO_LOG = ("needs ", "no hold is named", "no latitude", "household.")
# Keys of season.toml that a reason may ask for.
KEYS = ("u_value_w_m2k", "light_transmission")

# A page without data: what stays open, and what to log.
BARE: Mapping[str, str] = MappingProxyType(
    {
        "frost": "How close it came to frost is not known. Hang a logger among the plants, out of the sun.",
        "heat": "What the heat cost, and what a degree costs, is not known. Read a meter each week, or keep the bills.",
        "damp": "Whether it was too damp is not known. Hang a logger that writes humidity among the plants.",
        "soil": "Whether the bed carried the nights is not known. Put a probe into it, 10\u00a0cm deep.",
        "light": "Whether light held the plants back is not known. Give the latitude, and log light or sun.",
        "changes": "Whether anything you altered helped is not known. Write a dated line in a diary for each.",
        "harvest": "What the harvest cost is not known. Weigh what you pick, a line in the harvest book each time.",
        "winters": "Whether it was better than the winter before is not known. Hand in that winter's folder as well.",
    }
)
# … where a sensor is listed and left nothing that can be used: its measure, and what to say.
FEW: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "frost": ("air_temperature", "How close it came to frost is not known: no reading at the crop can be used."),
        "damp": (
            "relative_humidity",
            "Whether it was too damp is not known: too few readings of humidity can be used.",
        ),
        "soil": (
            "soil_temperature",
            "Whether the bed carried the nights is not known: its probe left too few readings.",
        ),
    }
)
OUTDOORS = ("outdoor_air", "Hang a logger outdoors, in the shade.")
EVERY = "Let every logger write every ten minutes, day and night."
WROTE_NOTHING = "See why the logger outdoors left no reading."
BY_HOUR = ("heat_by_hour", "Log the heater's power by the hour.")
FLAME = "Log by the hour when the burner runs."
IN_BED = ("soil", "Put a probe into the bed.")
COLDEST = "Alter nothing on the house or its heating for three weeks of the coldest time."


# Where the reason stands why such a page has no answer, if its channel was read too seldom, and what is then not known.
BARE_WHY: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "frost": ("minimum.temperature_c", "How close it came to frost"),
        "damp": ("hours_above_high.estimate", "Whether it was too damp"),
        "soil": ("hours_below_aim.estimate", "Whether the bed carried the nights"),
    }
)
# … and where it stands that the grower keeps what such a page would show.
HELD_BACK: Mapping[str, tuple[str, str]] = MappingProxyType(
    {"harvest": ("kg", "What the harvest cost is"), "light": ("days_under_ten_hours", "How short the days were is")}
)


@dataclass(frozen=True, slots=True)
class Question:
    """One thing a grower would ask, where its answer stands in review.json, and what would answer it next winter.

    `wants`: what it takes, as a field of `There`, with what to do where the season has it not. `log`: what to do where
    all of it is there; empty where only more of the same would help.
    """

    section: str
    path: str
    asked: str
    log: str = ""
    wants: tuple[tuple[str, str], ...] = ()

    def advice(self, there: There) -> str:
        """What would answer it, of what is not there."""
        missing = [(name, words) for name, words in self.wants if not getattr(there, name)]
        told = [EVERY if name in there.seldom else _unless_silent(name, words, there) for name, words in missing]
        return " ".join(dict.fromkeys(told)) or self.log


def _unless_silent(name: str, words: str, there: There) -> str:
    """Nobody is sent for the logger outdoors that hangs there and left no reading, nor to meter a flame."""
    if (name, words) == BY_HOUR and there.heater and not there.mains:
        return FLAME
    silent = there.outdoor_named and not there.logged("outdoor_air")
    return WROTE_NOTHING if silent and name.startswith("outdoor") else words


QUESTIONS: tuple[Question, ...] = (
    Question(
        "frost",
        "holding_limit.outdoor_c",
        "How cold it may get outside before the crop's air reaches the frost line",
        COLDEST,
        (OUTDOORS,),
    ),
    Question(
        "frost",
        "could_have_been_c",
        "How cold the hours without a reading may have been",
        "Put fresh batteries into the loggers before the cold begins.",
        (OUTDOORS, IN_BED),
    ),
    Question(
        "frost",
        "after_failure",
        "How long the crop has if the heat fails",
        wants=(BY_HOUR, IN_BED, OUTDOORS),
    ),
    Question(
        "frost",
        "without_heat_minimum_c.estimate",
        "How cold it would have been without heat",
        wants=(BY_HOUR, IN_BED, OUTDOORS),
    ),
    Question(
        "heat",
        "kwh",
        "How much heat the house was given",
        "Read a meter each week, or keep the bills and what was delivered.",
    ),
    Question("heat", "cost", "What the heat cost", "Give a price for each kind of heat."),
    Question(
        "heat",
        "price_of_hold",
        "What a degree more or less would have cost",
        wants=(OUTDOORS, ("heat_by_hour", "Read the meter each week at the same hour, all season.")),
    ),
    Question(
        "heat",
        "loss_w_per_k.estimate",
        "How many watts the house loses for each degree",
        wants=(BY_HOUR, OUTDOORS),
    ),
    Question(
        "heat",
        "share_at_or_above_hold.estimate",
        "How much of the time the crop had the warmth that you aimed for",
        "Name the temperature to be held.",
    ),
    Question(
        "damp", "hours_above_high.estimate", "How many hours were too damp", "Hang a humidity logger at the crop."
    ),
    Question(
        "damp",
        "glazing_dew_hours.estimate",
        "How many hours dew could form on the glazing",
        wants=(OUTDOORS,),
    ),
    Question(
        "damp",
        "airing_hours",
        "Whether airing would have dried the house",
        wants=(
            ("crop_air", "Log temperature at the crop as well."),
            ("outdoor_air", "Log temperature outdoors as well."),
            ("outdoor_humidity", "Log humidity outdoors as well."),
        ),
    ),
    Question("light", "days_under_ten_hours", "How short the days were", "Give the latitude."),
    Question(
        "light",
        "mean_daily_light_mol",
        "Whether the crop had light enough",
        wants=(("light", "Log light beside the crop, or sunlight outdoors."),),
    ),
    Question(
        "harvest",
        "share_of_household",
        "How much of what you eat the house gave",
        "Give the vegetables that the household eats in a week.",
    ),
    Question(
        "harvest",
        "shop_value",
        "What the harvest would have cost in the shop",
        "Write a shop price beside each crop in the harvest book.",
    ),
)


def unknown(
    findings: Sequence[Finding], pages: Sequence[Page], document: Mapping[str, Any], there: There | None = None
) -> tuple[str, ...]:
    """At most eight sentences: findings that cannot tell, pages without data, then open questions.

    `there`: what the season has, so that nobody is sent for what hangs there already; None: all of it.
    """
    there = there or There()
    said = [_open(finding) for finding in findings if finding.sure == "cannot tell"]
    bare = {page.slug for page in pages if not page.answers}
    told = {finding.page for finding in findings if finding.sure == "cannot tell"}
    said += [words for page in pages if page.slug in bare - told and (words := _bare(page, document, there))]
    for question in QUESTIONS:
        why = _reasons(question.section, document).get(question.path, "")
        if why and question.section not in bare and not why.startswith(NOT_OPEN) and not _idle(why, there):
            said.append(_sentence(question, why, there))
    if "frost" not in bare:
        said += _bands(document.get("frost") or {})
    return tuple(dict.fromkeys(said))[:MOST]


def _open(finding: Finding) -> str:
    """What a finding leaves open, as such: of a burner in a tightened house that is its flue, not that it burned."""
    if finding.subject != "safety":
        return finding.claim
    return f"Whether the {finding.about} has a flue is not known: without one its fumes stayed with whoever was in."


def _idle(why: str, there: There) -> bool:
    """Nobody names a hold where nobody heats."""
    return why.startswith("no hold is named") and not there.heater


def _reasons(section: str, document: Mapping[str, Any]) -> Mapping[str, Any]:
    return (found.get("reasons") or {}) if isinstance(found := document.get(section), Mapping) else {}


def _bare(page: Page, document: Mapping[str, Any], there: There) -> str:
    """What a page without data leaves open: read too seldom, nothing usable, or not logged; empty where nothing is."""
    where, asked = BARE_WHY.get(page.slug, ("", ""))
    if NOTHING_TOLD in (why := str(_reasons(page.slug, document).get(where, ""))):
        return f"{asked} is not known: {why}. {OFTEN}"
    if page.slug in HELD_BACK and _reasons(page.slug, document).get(HELD_BACK[page.slug][0]) == PRIVATE:
        return f"{HELD_BACK[page.slug][1]} {PRIVATE}."
    if page.slug == "heat" and not there.heater:
        return ""
    if page.slug == "changes" and there.diary_lines:
        return "Whether anything you altered helped is not known: no line of the diary tells a change that was made."
    measure, few = FEW.get(page.slug, ("", ""))
    left_little = {"soil": there.soil, "damp": there.crop_humidity}.get(page.slug, False)
    if measure in there.unheard or left_little:
        return few
    if page.slug == "light" and there.light:
        return "Whether light held the plants back is not known. Give the latitude."
    return BARE.get(page.slug, _whole(page.headline))


STOOD = {
    HELD: "on the nights that tell of it as it is now it held every time",
    CLOSE: "on the nights that tell of it as it is now it held every time, but only just",
}


def _sentence(question: Question, why: str, there: There) -> str:
    if why == PRIVATE:
        return f"{question.asked} is {why}."
    if why in STOOD:
        return f"How much colder the house could stand is not known: {STOOD[why]}."
    if NOTHING_TOLD in why:
        return f"{question.asked} is not known: {why}. {OFTEN}"
    key = next((name for name in KEYS if name in why), "")
    advice = f"Give {key} in season.toml." if key else question.advice(there)
    if why.startswith(SAYS_WHAT_TO_LOG) and advice:
        return f"{question.asked} is not known. {advice}"
    return f"{question.asked} is not known: {why.rstrip('.')}. {advice}".strip()


def _bands(frost: Mapping[str, Any]) -> list[str]:
    """The crops of which no book says what cold harms them, in one sentence."""
    crops, reasons = frost.get("crops") or [], frost.get("reasons") or {}
    names = [crop["crop"] for n, crop in enumerate(crops) if f"crops.{n}.damage_low_c" in reasons]
    names = list(dict.fromkeys(names))
    if not names:
        return []
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return [
        f"What cold harms {listed} is not known here. Note what each came through and what it did not, "
        "and give each its limit."
    ]


def _whole(words: str) -> str:
    return words[:1].upper() + words[1:].rstrip(".") + "."
