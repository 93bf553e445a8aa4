"""What is wrong with a sentence, by rules that need no judgement."""

from __future__ import annotations

import re

# Words that a grower of twelve would not know; what is meant has a plain word.
JARGON = (
    "regression|covariate|autocorrelation|heteroskedastic|estimator|coefficient|residual(?!-current)|p-value|"
    "null hypothesis|"
    "confidence level|standard deviation|standard error|outlier|percentile|quantile|dataframe|GLS|OLS|VPD|DLI|PPFD|"
    "enthalpy|psychrometric|setpoint|parameter|algorithm|metric ton|leverage|utilise|methodology|significant"
)
UNFILLED = re.compile(r"[{}]|%[sd]\b|\bTODO\b|\bXXX\b|<[a-z_]+>")
NOT_A_NUMBER = re.compile(r"\b(nan|NaN|None|inf|Infinity|NaT|null|True|False)\b")


def faults(sentence: str) -> list[str]:
    """Every fault of one sentence; empty when it may stand."""
    sentence = re.sub("“[^”]*”", "“…”", sentence)  # the grower's own words are theirs
    found = []
    if match := re.search(rf"\b({JARGON})\b", sentence):
        found.append(f"jargon: {match[0]}")
    if match := UNFILLED.search(sentence):
        found.append(f"unfilled: {match[0]}")
    if match := NOT_A_NUMBER.search(sentence):
        found.append(f"not a number: {match[0]}")
    if "  " in sentence or " \u00a0" in sentence or "\u00a0 " in sentence:
        found.append("two spaces")
    if sentence != sentence.strip():
        found.append("space at an end")
    if match := re.search(r"\d (?:°C|°F|K|kWh|kg|lb|h|%)(?!\w)", sentence):
        found.append(f"a breaking space before a unit: {match[0]}")
    if match := re.search(r"\d[.,]\d{3,}(?!\d*\u202f)", sentence):
        found.append(f"too many digits: {match[0]}")
    if match := re.search(r"(?<![\w\u2013])-\d", sentence):
        found.append(f"a hyphen for a minus: {match[0]}")
    if match := re.search(r"(?<![\d\u202f.,])1\u00a0(?:nights|days|weeks|hours|pickings|weighings)\b", sentence):
        found.append(f"plural of one: {match[0]}")
    return found


def grade(text: str) -> float:
    """Flesch-Kincaid grade of a text (Kincaid et al. 1975); numbers and units count as words of one syllable."""
    sentences = max(len(re.findall(r"[.!?](?:\s|$)", text)), 1)
    words = re.findall(r"[A-Za-z’']+|\d[\d.,\u202f]*", text)
    return 0.39 * len(words) / sentences + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def syllables(word: str) -> int:
    """Runs of vowels, a silent e at the end left out; at least one."""
    runs = len(re.findall(r"[aeiouy]+", word.casefold()))
    silent = word.casefold().endswith("e") and not word.casefold().endswith(("le", "ee")) and runs > 1
    return max(runs - silent, 1)
