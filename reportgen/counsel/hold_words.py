"""The hold's advice in sentences, said alike wherever it stands."""

from __future__ import annotations

from collections.abc import Callable

from reportgen.counsel.grounds import Ends, HoldAdvice
from reportgen.wording import NBSP, Wording, between, count, number

ALWAYS_FIRST = (
    "power to the heater, a probe at the crop, and fleece drawn at dusk, clear of any heater, come before an alarm"
)


def advised(a: HoldAdvice, w: Wording) -> str:
    """How far the thermostat may come down, or why nothing can be said; one sentence, at most two."""
    if a.down_by_k is None:
        return f"How far the thermostat may come down cannot be told: {a.reason}."
    if not a.down_by_k:
        return no_room(a, w)
    limit = "" if a.limit_c is None else f" {a.crop} asks for no less than {w.temp(a.limit_c)}{_mild(a, w)}."
    if a.dial_c is None or a.lowest_c is None:
        return f"The thermostat may come down by {w.diff(a.down_by_k)}.{_first_up(limit)}"
    return f"The dial may come down from {w.temp(a.dial_c)} to {w.temp(a.lowest_c)}.{_first_up(limit)}"


def no_room(a: HoldAdvice, w: Wording) -> str:
    """That the setting cannot come down, and by how much it is too low already."""
    what = "Your dial" if a.dial_c is not None else "What was held"
    limit = "" if a.limit_c is None else f" for {a.crop} ({w.temp(a.limit_c)}{_mild(a, w)})"
    if a.short_by_k is not None and w.diff(a.short_by_k) != w.diff(0.0):
        return f"{what} leaves no room{limit}: {w.diff(a.short_by_k)} short."
    return f"{what} leaves no room{limit}."


def nights_told(a: HoldAdvice, w: Wording) -> str:
    """What the air came to: usually x, coldest y of n nights; empty where no night counts."""
    if a.usually_c is None or a.coldest_c is None or not a.nights:
        return ""
    where = "At that setting the" if a.down_by_k else "The"
    verb = "would be" if a.down_by_k else "was"
    coldest = f"{w.temp(a.coldest_c)} on the coldest of {count(a.nights, 'night')}"
    if a.nights == 1:
        return f"{where} coldest crop air {verb} {w.temp(a.usually_c)} on the one night that counts."
    return f"{where} coldest crop air {verb} usually {w.temp(a.usually_c)}, {coldest}."


def flat_out(a: HoldAdvice, w: Wording) -> str:
    """From where the dial decides nothing; empty where that is not known."""
    if a.flat_out_c is None:
        return ""
    those = "that one is" if a.flat_out_nights == 1 else "those are"
    met = f" So it did on {count(a.flat_out_nights, 'night')}; {those} not counted." if a.flat_out_nights else ""
    return f"Colder than {w.temp(a.flat_out_c, 0)} outdoors the dial decides nothing: the heater runs flat out.{met}"


def price(a: HoldAdvice, w: Wording) -> str:
    """What it would spare in a winter like this one, in the house as it is now; empty where that is not known."""
    if a.saves_kwh is None or not a.down_by_k:
        return ""
    heat = _ends(a.saves_kwh, w.kwh)
    money = "" if a.saves_money is None or not w.currency else f", {_money(a.saves_money, w)}"
    return f"In a winter like this one, with the house as it is now, that spares {heat}{money}."


def alarm(a: HoldAdvice, w: Wording) -> str:
    """The line that would have warned and how long before, or what comes before an alarm; empty where not known."""
    line = "" if a.alarm_c is None else w.temp(a.alarm_c)
    rang = f"rang {_times(a.alarm_rings)}, {_times(a.alarm_needed)} in need"
    if a.alarm_why == "" and a.alarm_warning_h is not None:
        return f"An alarm at {line} would have warned {_span(a.alarm_warning_h)} ahead at least; it {rang}."
    if a.alarm_why == "minutes" and a.alarm_warning_h is not None:
        return f"An alarm at {line} would have warned only {_span(a.alarm_warning_h)} ahead: {ALWAYS_FIRST}."
    if a.alarm_why == "for nothing":
        seen = f" (at {line} it {rang})" if line else ""
        return f"Every alarm line under what was held rang mostly for nothing{seen}: {ALWAYS_FIRST}."
    if a.alarm_why == "silent":
        return f"No alarm line under what was held would have rung, so none was put to the test: {ALWAYS_FIRST}."
    return ""


def _mild(a: HoldAdvice, w: Wording) -> str:
    return f", {w.diff(3.0, 0)} of it because a mild week hardens nothing" if a.unhardened else ""


def _first_up(text: str) -> str:
    return text[:1] + text[1:2].upper() + text[2:]


def _ends(ends: Ends, say: Callable[[float], str]) -> str:
    if ends.low is None or ends.high is None:
        return ""
    return between(say(ends.low), say(ends.high))


def _money(ends: Ends, w: Wording) -> str:
    if ends.low is None or ends.high is None:
        return ""
    low, high = w.money(ends.low, 0), w.money(ends.high, 0)
    return low if low == high else w.money_range(ends.low, ends.high)


def _times(n: int) -> str:
    return ("never", "once", "twice")[n] if n < 3 else f"{number(n)}{NBSP}times"


def _span(hours: float) -> str:
    if hours < 1.0:
        return f"{number(max(round(hours * 60.0), 1))}{NBSP}min"
    return f"{number(hours, 1 if hours < 3 else 0)}{NBSP}h"
