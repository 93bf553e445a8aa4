"""Sums of money in the grower's own words, where prices are not to be shared: they are told of, not taken out."""

from __future__ import annotations

import re
from collections.abc import Sequence

from reportgen.problems import Problem
from reportgen.readings.told import Told

# ISO 4217, the codes of money in use, but for those that are words (ALL, CUP, MOP, PEN, TOP, TRY)
CODES = (
    "AED|AFN|AMD|AOA|ARS|AUD|AWG|AZN|BAM|BBD|BDT|BGN|BHD|BIF|BMD|BND|BOB|BRL|BSD|BTN|BWP|BYN|BZD|CAD|CDF|"
    "CHF|CLP|CNY|COP|CRC|CVE|CZK|DJF|DKK|DOP|DZD|EGP|ERN|ETB|EUR|FJD|FKP|GBP|GEL|GHS|GIP|GMD|GNF|GTQ|GYD|"
    "HKD|HNL|HTG|HUF|IDR|ILS|INR|IQD|IRR|ISK|JMD|JOD|JPY|KES|KGS|KHR|KMF|KPW|KRW|KWD|KYD|KZT|LAK|LBP|LKR|LRD|"
    "LSL|LYD|MAD|MDL|MGA|MKD|MMK|MNT|MRU|MUR|MVR|MWK|MXN|MYR|MZN|NAD|NGN|NIO|NOK|NPR|NZD|OMR|PAB|PGK|"
    "PHP|PKR|PLN|PYG|QAR|RON|RSD|RUB|RWF|SAR|SBD|SCR|SDG|SEK|SGD|SHP|SLE|SOS|SRD|SSP|STN|SVC|SYP|SZL|THB|TJS|"
    "TMT|TND|TTD|TWD|TZS|UAH|UGX|USD|UYU|UZS|VES|VND|VUV|WST|XAF|XCD|XOF|XPF|YER|ZAR|ZMW"
)
POUND = ("GBP", "EGP", "FKP", "GIP", "SHP", "SSP", "SDG", "SYP", "LBP")  # elsewhere a pound is a weight
SIGNS = "$¢£¤¥֏؋৲৳฿៛₠-⃀"  # of Unicode's category Sc
NUMBER = r"\d[\d.,' \u00a0\u202f]*"
UNITS = (
    "euros?|cents?|ct|quid|pence|dollars?|bucks?|francs?|franken|koruna|korun|koruny|kč|zł|zloty|"
    "złoty|złotych|kroner|kronor|krone|krona|kr|forints?|lei|leva|levs?|hryvnias?|rubles?|roubles?|"
    "rupees?|yen|yuan|rand|lira|pesos?|reais|reals?|shekels?|dinars?|dirhams?|tenge|lari"
)
SPELLED = (
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|"
    "seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand"
)


def prices_told(texts: Sequence[Told], currency: str | None) -> tuple[Problem, ...]:
    """A warning for each text with a number beside a currency: its sign, its code or its word."""
    pattern = _money(currency)
    found = ((one, pattern.search(one.text)) for one in texts)
    return tuple(_warning(one, sum_[0].strip(" .,'\u00a0\u202f")) for one, sum_ in found if sum_ is not None)


def _money(currency: str | None) -> re.Pattern[str]:
    more = "|pounds?" if currency in POUND else "|ft" if currency == "HUF" else ""
    code = rf"(?-i:\b(?:{CODES})\b)" + (rf"|\b{currency}\b" if currency else "")
    word = rf"(?:{UNITS}{more})\b"
    count = rf"(?:{NUMBER}|\b(?:{SPELLED})[ -])"
    sign = rf"(?:[{SIGNS}]|(?:{code}))"
    return re.compile(rf"{sign}\s*-?{NUMBER}|{NUMBER}[-–—]*\s*{sign}|{count}[-–—]*\s*(?:{word})", re.IGNORECASE)


def _warning(one: Told, words: str) -> Problem:
    return Problem(
        slug="price-in-words",
        file=one.file,
        line=one.line,
        column=one.column,
        found=f"{words!r} in {one.text.strip()[:80]!r}",
        expected="no sum of money in words that are shared, since [share] keeps prices private",
        todo="write it without the sum, or set prices = true under [share]; as it is, the shared pages print it",
        level="warning",
    )
