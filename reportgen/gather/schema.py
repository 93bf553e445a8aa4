"""review.json of a stranger → a frozen Winter that holds the white list of its keys (keys.py) and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from pydantic import ValidationError

from reportgen.gather import keys, types
from reportgen.gather.document import Unfit, values_of
from reportgen.gather.faults import in_words
from reportgen.gather.shared import without_private
from reportgen.gather.texts import hidden, on_one_line
from reportgen.gather.values import WORDS

DONE = ("change", "spell", "upkeep")  # kinds of line that set something; an event befalls, and where one was is private
Hide = Callable[[str], str]
NO_FLAME = "electricity"
FUMES = "fuel burnt without a flue while the house was tightened"  # as counsel/events_safety.py words it
BAND = ("", ".estimate", ".low", ".high")
# Dotted paths whose reasons are kept: those of what a Winter holds.
TOLD: Mapping[str, tuple[str, ...]] = {
    "house": ("kind", "floor_area_m2", "glazing_area_m2", "glazing"),
    "weather": ("mean_night_c", "coldest_c", "kelvin_hours_below_hold"),
    "frost": (
        "minimum.temperature_c", "minimum.margin_k", "failures", *(f"nights_below.0{end}" for end in BAND)
    ),
    "heat": ("kwh", "cost", *(f"loss_w_per_k{end}" for end in BAND)),
    "damp": (
        "hours_recorded", *(f"{name}{end}" for name in ("hours_above_high", "hours_above_extreme") for end in BAND)
    ),
    "soil": ("mean_c",),
    "harvest": ("kg", "kg_per_m2", "weeks_at_half_or_more"),
    "balance": ("total", "per_kg"),
    "winters": ("last", "rows"),
}  # fmt: skip


def winter_of(raw: bytes, source: str) -> types.Winter:
    """What one review tells.

    Args:
        raw: The bytes of its review.json.
        source: What the file is called.

    Raises:
        Unfit: It is none, in words: where in it, what was found and what was expected.
    """
    document = values_of(raw)
    found = document.get("format")
    if "season" not in document:
        raise Unfit("it is JSON, but no review: it has no “season”")
    if isinstance(found, int) and not isinstance(found, bool) and found != keys.FORMAT:
        raise Unfit(f"it is of format {str(found)[:20]}, of another release; format {keys.FORMAT} is read here")
    try:
        review = keys.Review.model_validate(document)
    except ValidationError as error:
        raise Unfit(in_words(error)) from None
    return _winter(without_private(review), source)


def _winter(review: keys.Review, source: str) -> types.Winter:
    house, season = review.house, review.season
    hide = hidden(_names(review))
    return types.Winter(
        source=source,
        house_id=house.id,
        label=house.label,
        title=season.title,
        first_day=season.first_day,
        last_day=season.last_day,
        so_far=review.so_far,
        currency=season.currency,
        kind=house.kind,
        heated=house.heated,
        floor_area_m2=house.floor_area_m2,
        glazing_area_m2=house.glazing_area_m2,
        glazing=house.glazing,
        sealed_burner=any(event.kind == "safety" and event.cause == FUMES for event in review.events),
        burner=any(source.fuel != NO_FLAME for source in review.heat.sources),
        last_winter=review.winters.last,
        headlines=_headlines(review, hide),
        lines=tuple(_line(change, hide) for change in review.changes if change.kind in DONE),
        against_last=tuple(_row(row) for row in review.winters.rows),
        levers=tuple(_switched(lever, hide) for lever in review.levers if lever.outcomes),
    )


def _headlines(review: keys.Review, hide: Hide) -> types.Headlines:
    frost, heat, damp, weather = review.frost, review.heat, review.damp, review.weather
    return types.Headlines(
        minimum_c=frost.minimum.temperature_c,
        margin_k=frost.minimum.margin_k,
        outdoor_coldest_c=weather.coldest_c,
        mean_night_outdoor_c=weather.mean_night_c,
        nights_below_line=_band(frost.nights_below.line),
        line_c=frost.line_c,
        failures=len(frost.failures),
        heat_kwh=heat.kwh,
        heat_cost=heat.cost,
        loss_w_per_k=_band(heat.loss_w_per_k),
        kelvin_hours_below_hold=weather.kelvin_hours_below_hold,
        damp_hours_recorded=damp.hours_recorded,
        hours_above_high=_band(damp.hours_above_high),
        hours_above_extreme=_band(damp.hours_above_extreme),
        high_pct=damp.high_pct,
        extreme_pct=damp.extreme_pct,
        soil_mean_c=review.soil.mean_c,
        harvest_kg=review.harvest.kg,
        kg_per_m2=review.harvest.kg_per_m2,
        balance_total=review.balance.total,
        balance_per_kg=review.balance.per_kg,
        weeks_at_half_or_more=review.harvest.weeks_at_half_or_more,
        reasons=tuple(_reasons(review, hide)),
    )


def _reasons(review: keys.Review, hide: Hide) -> Iterator[tuple[str, str]]:
    for section, paths in TOLD.items():
        given: Mapping[str, Any] = getattr(review, section).reasons
        for path in paths:
            words = given.get(path)
            if isinstance(words, str) and 0 < len(words) <= WORDS:
                yield f"{section}.{path}", hide(on_one_line(words))


def _names(review: keys.Review) -> frozenset[str]:
    """Loggers and files by name: what they are called may say where the house stands."""
    found: set[str | None] = {channel.logger for channel in review.record.channels}
    for file in review.record.files:
        found |= {file.file, file.logger}
    return frozenset(name for name in found if name)


def _band(band: keys.Band) -> types.Band:
    return types.Band(estimate=band.estimate, low=band.low, high=band.high)


def _line(change: keys.Change, hide: Hide) -> types.Line:
    return types.Line(
        when=change.when,
        what=change.what,
        kind=change.kind,
        thing=change.thing or None,
        touches=tuple(change.touches),
        hoped_for=tuple(change.hoped_for),
        undoes=change.undoes.isoformat() if change.undoes is not None else None,
        grouped_with=tuple(change.grouped_with),
        verdict=change.verdict,
        outcomes=_outcomes(change.outcomes, hide),
    )


def _outcomes(outcomes: Iterable[keys.Outcome], hide: Hide) -> tuple[types.Outcome, ...]:
    return tuple(
        types.Outcome(
            outcome=one.outcome,
            unit=one.unit,
            declared=one.declared,
            effect=one.effect,
            low=one.low,
            high=one.high,
            se=one.se,
            dof=one.dof,
            before_mean=one.before_mean,
            days_before=one.days_before,
            days_after=one.days_after,
            refused=hide(one.refused) if one.refused else None,
        )
        for one in outcomes
    )


def _switched(lever: keys.Lever, hide: Hide) -> types.Switched:
    return types.Switched(name=lever.name, entries=tuple(lever.entries), outcomes=_outcomes(lever.outcomes, hide))


def _row(row: keys.Row) -> types.EqualWeather:
    equal = row.at_equal_weather
    band = types.Band(estimate=equal.effect, low=equal.low, high=equal.high) if equal is not None else None
    return types.EqualWeather(what=row.what, unit=row.unit, last=row.last, this=row.this, at_equal=band)
