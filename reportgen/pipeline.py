"""Season folder in, review out, site drawn: the one road, in the order in which it is walked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from reportgen.effects import effects
from reportgen.findings import find
from reportgen.findings.results import Results
from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.identity import identity
from reportgen.measures.light import light
from reportgen.measures.record import record
from reportgen.measures.soil import soil
from reportgen.measures.weather import weather
from reportgen.problems import SeasonError
from reportgen.readings import read_season
from reportgen.readings.sharing import named, private_words, shared
from reportgen.readings.types import Readings
from reportgen.review import Review
from reportgen.season import Season, load_season
from reportgen.winters import winters

Tell = Callable[[str], None]


def quietly(_: str) -> None:
    """The progress of a caller who wants none."""


def analyse(
    folder: str | Path, *, against: str | Path | None = None, share: bool = False, tell: Tell = quietly
) -> Review:
    """The review of one season folder, without drawing anything.

    Args:
        folder: A season folder (season.toml and what it names).
        against: Another season folder to compare with; overrules `[last_season]`.
        share: Take out of the data what `[share]` of season.toml does not allow, before anything is measured.
        tell: Called with a few words before each stage.

    Raises:
        SeasonError: The season (or the one it is compared with) has problems; all of them at once.
    """
    readings, last = _read(folder, against, tell)
    if share:
        readings, last, _ = _shared(readings, last)
    return _weighed(readings, last, tell)


def _read(folder: str | Path, against: str | Path | None, tell: Tell) -> tuple[Readings, Readings | None]:
    tell("reading season.toml")
    season = load_season(Path(folder))
    tell("reading the loggers and the books")
    return read_season(season), _last_readings(season, against, tell)


def _weighed(readings: Readings, last: Readings | None, tell: Tell) -> Review:
    tell("measuring frost, heat, damp, soil, light and harvest")
    results = _measure(readings, last, tell)
    tell("weighing the findings")
    return Review(**{name: getattr(results, name) for name in Results.__slots__}, findings=find(results))


def _last_readings(season: Season, against: str | Path | None, tell: Tell) -> Readings | None:
    folder = against
    if folder is None and season.last_season is not None:
        folder = season.folder / season.last_season.folder
    if folder is None:
        return None
    tell("reading last winter")
    return read_season(load_season(Path(folder)))


def _shared(readings: Readings, last: Readings | None) -> tuple[Readings, Readings | None, tuple[str, ...]]:
    """Both winters by what this one's `[share]` allows, and the words of either that may stand nowhere."""
    problems = named(readings)
    if problems:
        raise SeasonError(problems)
    if last is None:
        return shared(readings), None, private_words(readings)
    same_rule = last.season.model_copy(update={"share": readings.season.share})
    last = replace(last, season=same_rule)
    return shared(readings), shared(last), (*private_words(readings), *private_words(last))


def _measure(readings: Readings, last: Readings | None, tell: Tell) -> Results:
    measured: dict[str, Any] = {
        "house": identity(readings),
        "weather": weather(readings),
        "record": record(readings),
        "frost": frost(readings),
        "heat": heat(readings),
        "damp": damp(readings),
        "soil": soil(readings),
        "light": light(readings),
        "harvest": harvest(readings),
    }
    tell("taking the weather out of each change")
    changes = effects(readings)
    tell("setting this winter beside last")
    compared = winters(readings, last)
    return Results(season=readings.season, readings=readings, effects=changes, winters=compared, **measured)


def review(
    folder: str | Path,
    out: str | Path,
    *,
    against: str | Path | None = None,
    share: bool = False,
    tell: Tell = quietly,
) -> Review:
    """Analyse a season and publish its site in `out`; the review itself is returned.

    Raises:
        SeasonError: As `analyse`; the old site then stays as it was.
        reportgen.site.publish.PublishError: `out` is no folder this tool may write.
    """
    from reportgen.site import check_target, write_site

    check_target(Path(out), Path(folder))
    readings, last = _read(folder, against, tell)
    private: tuple[str, ...] = ()
    if share:
        readings, last, private = _shared(readings, last)
    found = _weighed(readings, last, tell)
    tell("drawing the pages")
    write_site(found, Path(out), share=share, private=private, tell=tell)
    return found
