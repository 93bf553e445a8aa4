"""Findings of the heat: what the house loses, what was heated above the aim, what the heater can do."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_words import hold_words, known, loss_value, per_kelvin, watts
from reportgen.counsel.types import Said
from reportgen.wording import count, number

LEAKY = 1.3  # loss found against loss expected; beyond the figure's own ± 25 %
OVER_TARGET = 0.1  # share of the heat spent above the target before it is worth a sentence


def loss(facts: Facts) -> Said | None:
    """What the house loses for each degree, beside what its cover lets expect; None where it is not known."""
    h, w = facts.r.heat, facts.w
    loss, expected = h.loss_w_per_k, h.loss_expected_w_per_k
    if not known(loss):
        return None
    low, high = (per_kelvin(w, x) for x in (loss.low, loss.high))
    beside, step, sealing = "", "", False
    if expected is not None:
        ratio = loss.estimate / expected
        sealing = ratio > LEAKY
        cause = f"cover{' and air changes' if h.loss_with_air else ''}"
        beside = f", where {cause} would account for {per_kelvin(w, expected)}"
        step = (
            "Close gaps at doors, vents and the foot of the walls: more is lost than the cover explains."
            if sealing and not _fumes_stay(facts)
            else f"{_flue_first(facts)} before you close a gap: more is lost than the cover explains."
            if sealing
            else "The cover explains what is lost: only a better cover, or a lower hold, saves heat."
        )
    step = step or "Write u_value_w_m2k and glazing_area_m2 into season.toml, so that the cover's share can be told."
    return Said(
        claim=f"For each {w.diff_unit} that it is warmer than outdoors the house needs about "
        f"{_plain_watts(facts, loss.estimate)}{beside}.",
        evidence=f"{count(h.loss_nights, 'night')} heated throughout{_as_it_is(facts)}; between {low} and {high}.",
        how_sure="Nine in ten: so many such spans held the true loss on simulated houses.",
        next_step=step,
        caution=cautions.SEAL if sealing and facts.fuels - {"electricity"} else None,
        figure=per_kelvin(w, loss.estimate),
        figure_note="heat loss, about",
        token="warm",
        stake="money",
        weight=0.0,
    )


def _as_it_is(facts: Facts) -> str:
    return " as the house is now" if len(facts.r.heat.loss_by_state) > 1 else ""


def _fumes_stay(facts: Facts) -> bool:
    """A fuel is burnt in the house without a flue (or none is told of)."""
    return any(source.fuel != "electricity" and not source.vented for source in facts.r.season.heating)


def _flue_first(facts: Facts) -> str:
    """What comes before any gap is closed: the burner's flue, or the word for it where nobody wrote it down."""
    if any(source.fuel != "electricity" and source.vented is False for source in facts.r.season.heating):
        return "Give the burner a flue, or replace it,"
    return "Make sure that the burner has a flue, and write vented = true beside it in season.toml,"


def _plain_watts(facts: Facts, w_per_k: float) -> str:
    return f"{number(loss_value(facts.w, w_per_k))}\u00a0W"


def over_target(facts: Facts) -> Said | None:
    """Heat that kept the air above the aim; None where it is not known or little."""
    h, w = facts.r.heat, facts.w
    if h.above_target_kwh is None or not h.kwh or h.above_target_kwh < OVER_TARGET * h.kwh:
        return None
    share = h.above_target_kwh / h.kwh
    money = f", about {w.money(share * h.cost)}" if h.cost is not None else ""
    return Said(
        claim=f"{w.kwh(h.above_target_kwh)} of heat kept the air warmer than you aimed for{money}.",
        evidence=f"{w.percent(100 * share)} of all heat: what was used, less what {hold_words(facts)} would have "
        "taken in the same weather by the table of holds.",
        how_sure="A hint: it is the air at the crop logger that is compared, not that at the thermostat.",
        next_step="Hang the thermostat's sensor beside the crop: then what it is set to is what the crop has.",
        figure=w.kwh(h.above_target_kwh),
        figure_note="above the aim",
        token="warm",
        stake="money",
        weight=share * (h.cost or 0.0),
    )


def size(facts: Facts) -> Said | None:
    """The heater that this winter asked for, and the one to buy; None where the balance cannot tell."""
    h, w = facts.r.heat, facts.w
    needed, band = h.heater_needed_w, h.heater_needed_w.coldest_band
    if needed.coldest_hour is None or needed.to_buy is None or band is None or needed.five_band is None:
        return None
    have, short, beside = _against_rated(facts, needed.coldest_hour)
    wanted = have is not None and have < needed.to_buy
    return Said(
        claim=f"The hardest three hours, with {w.temp(needed.coldest_c or 0.0)} the coldest outdoors, asked for about "
        f"{watts(needed.coldest_hour)} of heat{beside}.",
        evidence=f"As the house is now: between {watts(band.low)} and {watts(band.high)}; {w.diff(5.0, 0)} colder "
        f"between {watts(needed.five_band.low)} and {watts(needed.five_band.high)}. To keep single hours within about "
        f"{w.diff(1.0, 0)} of the hold a heater of about {watts(needed.to_buy)} is wanted.",
        how_sure="Nine in ten: of ten such spans on simulated houses about nine held the truth.",
        next_step=_size_step(short, wanted),
        caution=cautions.heating(facts.fuels) or None if short else None,
        figure=watts(needed.coldest_hour),
        figure_note="in the hardest three hours",
        token="warm",
        stake="crop at risk" if short else "good news",
        weight=needed.coldest_hour / have if have else 0.0,
    )


def _size_step(short: bool, wanted: bool) -> str:
    if short:
        return "Cover the crop inside on the coldest nights, or add what a licensed trade says your supply bears."
    if wanted:
        return "The heater carries a winter like this with single hours under the hold: cover the crop on those nights."
    return "The heater is large enough for a winter like this; keep a second one ready for when it fails."


def rated_heat_w(facts: Facts) -> float | None:
    """Heat that the main heaters give at most [W]; None where there is none, or one without a rated power."""
    main = [s for s in facts.r.season.heating if s.role == "main"]
    if not main or any(s.rated_power_w is None for s in main):
        return None
    return float(sum((s.rated_power_w or 0.0) * s.efficiency for s in main))


def _against_rated(facts: Facts, needed_w: float) -> tuple[float | None, bool, str]:
    """Heat the main heaters give at most (None where not given), whether it falls short, and the words for it."""
    have = rated_heat_w(facts)
    if have is None:
        return None, False, ""
    main = [s for s in facts.r.season.heating if s.role == "main"]
    given = "the main heater gives" if len(main) == 1 else "the main heaters give"
    return have, have < needed_w, f"; {given} {watts(have)} at most"
