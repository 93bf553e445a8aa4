"""Coordinates of a private place in a text: a bare figure stands for much else, so only with what marks it as one."""

from __future__ import annotations

import re

MARK = r"\s*(?:(?:°|º|deg(?:rees)?\b)(?!\s*[CFK]\b)|[NSEW]\b)"
MOST_BETWEEN = 12  # signs between latitude and longitude


class PrivateSpot:
    """Latitude and longitude, as precise as season.toml has them or less, down to a tenth of a degree (some 10 km)."""

    def __init__(self, latitude: float | None, longitude: float | None, *, pairs: bool) -> None:
        """`pairs`: whether one figure after the other tells it too; in a table of readings it does not."""
        given = [value for value in (latitude, longitude) if value]
        self.name = ", ".join(f"{value:g}°" for value in given)
        figures = [_figure(value) for value in given]
        forms = [f"{figure}{MARK}" for figure in figures]
        if pairs and len(figures) == 2:
            one, other = figures
            between = rf"\D{{1,{MOST_BETWEEN}}}"
            forms += [f"{one}{between}{other}", f"{other}{between}{one}"]
        self._pattern = re.compile("|".join(forms) if forms else "(?!)")

    def told_in(self, text: str) -> bool:
        """Whether a text gives the spot away."""
        return bool(self._pattern.search(text))


def _figure(value: float) -> str:
    """Both ways to shorten it, rounded and cut off, with a point or a comma; more decimals may follow the longest."""
    whole = f"{abs(value):.6f}".rstrip("0").rstrip(".")
    decimals = len(whole.partition(".")[2])
    forms = {whole, *(f"{abs(value):.{n}f}" for n in range(1, decimals))}
    forms |= {whole[: len(whole) - n] for n in range(1, decimals)}
    any_of = "|".join(re.escape(form).replace(r"\.", "[.,]") for form in sorted(forms, key=len, reverse=True))
    more = r"\d*" if decimals else r"(?:[.,]0+)?"
    return rf"(?<![\d.,])(?:{re.escape(whole).replace(chr(92) + '.', '[.,]')}{more}|{any_of})(?!\d)"
