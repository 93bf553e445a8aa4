"""How it was worked out: each method in plain words, with equation, source, limit and measured error."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.charts import method_changes, method_climate, method_cold, method_dial, method_house
from reportgen.charts.method_types import RATE_COLUMNS, Method
from reportgen.counsel import cautions
from reportgen.measures.record_words import measure_name
from reportgen.review import Review
from reportgen.units import MEASURES, is_temperature
from reportgen.wording import NBSP, Wording, number

__all__ = ["Explained", "Method", "explained"]

METHODS: tuple[Method, ...] = (
    *method_cold.METHODS,
    *method_house.METHODS,
    *method_dial.METHODS,
    *method_climate.METHODS,
    *method_changes.METHODS,
)

# Word → what it means here. Plain words for the group; the unit stands with each.
GLOSSARY: tuple[tuple[str, str], ...] = (
    ("crop air", "The air where the plants stand. With several loggers the coldest of them counts for frost."),
    ("margin", "How far the coldest crop air stayed above the frost line, in K."),
    ("K (kelvin)", "The step of 1 °C, used for differences: 5 °C is 3 K warmer than 2 °C. One K is 1.8 °F."),
    ("lift", "How much warmer the house is than outdoors, in K; here the mean from 20 to 6 h."),
    ("degree-hours", "Degrees times hours: 2 K below a line for 3 h are 6 K·h."),
    ("garden day", "From noon to the next noon, standard time, so that a night is never cut in two."),
    ("night, long night", "20 to 6 h, and 18 to 9 h; named after the evening on which it begins."),
    ("hold", "The temperature that the heating keeps."),
    ("relative humidity", "How full of moisture the air is, in %. Cold air is full with far less water than warm air."),
    ("dew point", "The temperature to which air must cool before dew forms; below 0 °C there is frost instead."),
    ("vapour-pressure deficit", "How much more moisture the air could take up, in kPa. Near 0 nothing dries."),
    ("daily light", "The light a leaf can use over one day, in moles of photons per m²."),
    ("95 % interval", "Made so that in 95 of 100 such reckonings the true value lies inside."),
    ("equal weather", "What is left of a difference once the weather of both times has been taken out."),
    ("sensor's band", "The count again with every reading shifted by the sensor's ±: all too high, all too low."),
)

SURENESS: tuple[tuple[str, str], ...] = (
    ("Sure", "Read straight off the record or the books; only the sensor's accuracy stands between it and the truth."),
    ("Fairly sure", "Worked out by a method whose error was measured, and the interval leaves out zero."),
    ("A hint", "The sign points one way, but something named beside it could explain it too."),
    ("Cannot tell", "The data do not decide. That is not the same as no effect."),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Explained:
    """All of the method page."""

    methods: tuple[Method, ...]
    rate_columns: tuple[str, ...]
    glossary: tuple[tuple[str, str], ...]
    sureness: tuple[tuple[str, str], ...]
    sensors: tuple[tuple[str, str, str, str], ...]  # logger, what, accuracy, checked
    cautions: tuple[str, ...]


def explained(review: Review) -> Explained:
    """The method page of this review."""
    return Explained(
        methods=METHODS,
        rate_columns=RATE_COLUMNS,
        glossary=GLOSSARY,
        sureness=SURENESS,
        sensors=_sensors(review),
        cautions=(
            cautions.FUEL,
            cautions.MAINS,
            cautions.ALONE,
            cautions.SEAL,
            cautions.ROOF,
            cautions.SPRAY,
        ),
    )


def _sensors(review: Review) -> tuple[tuple[str, str, str, str], ...]:
    """Each channel with the ± that its counts of hours were shifted by."""
    w = Wording.of(review.season)
    return tuple(
        (
            channel.logger,
            measure_name(channel.measure),
            _accuracy(channel.measure, channel.accuracy, w),
            _step(channel.step_s),
        )
        for channel in review.readings.channels
    )


def _accuracy(measure: str, accuracy: float | None, w: Wording) -> str:
    if accuracy is None:
        return "not given, so no band"
    if is_temperature(measure):
        return f"±{NBSP}{w.diff(accuracy)}"
    if MEASURES[measure].kind == "humidity":
        return f"±{NBSP}{number(accuracy, 1)}{NBSP}points"
    return f"±{NBSP}{accuracy:g}{NBSP}{MEASURES[measure].kept}"


def _step(step_s: float | None) -> str:
    if step_s is None:
        return "–"
    return f"{number(step_s)}{NBSP}s" if step_s < 60 else f"{number(step_s / 60)}{NBSP}min"
