"""Season folder in, review out, site drawn: the one road, in the order in which it is walked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reportgen.disk import is_there
from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.house.season import house_model
from reportgen.measures.identity import identity
from reportgen.measures.light import light
from reportgen.measures.record import record
from reportgen.measures.soil import soil
from reportgen.measures.weather import weather
from reportgen.plain import plain
from reportgen.problems import Problem, SeasonError
from reportgen.readings.folded import Private
from reportgen.readings.season_reader import read_what_can_be
from reportgen.readings.sharing import private_words, shared, unfit_to_share
from reportgen.readings.told import STORY
from reportgen.readings.types import Readings
from reportgen.season import Season
from reportgen.season.load import load_what_can_be
from reportgen.wording import listed

if TYPE_CHECKING:
    from reportgen.counsel.results import Results
    from reportgen.review import Review
    from reportgen.site.story import Story

Tell = Callable[[str], None]
# Sections of review.json that need this winter's readings and nothing else.
MEASURES: Mapping[str, Callable[[Readings], Any]] = {
    "record": record,
    "frost": frost,
    "heat": heat,
    "damp": damp,
    "soil": soil,
    "light": light,
    "harvest": harvest,
}


def quietly(_: str) -> None:
    """The progress of a caller who wants none."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Checked:
    """A season folder as a review needs it. Where `problems` is empty a review can be made of it; else `season` and
    `readings` are what could be read, for looking at. `review` is there where the checks had to measure all for it,
    `measured` holds the sections that they measured else."""

    season: Season | None = None
    readings: Readings | None = None
    last: Readings | None = None
    story: Story | None = None
    private: tuple[Private, ...] = ()
    review: Review | None = None
    measured: Mapping[str, Any] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()

    @property
    def warnings(self) -> tuple[Problem, ...]:
        """What does not stop a review."""
        return self.readings.warnings if self.readings is not None else ()


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
        SeasonError: The season (or the one it is compared with, or its story) has problems; all of them at once.
    """
    return _reviewed(check(folder, against=against, share=share, tell=tell), tell)


def check(
    folder: str | Path, *, against: str | Path | None = None, share: bool = False, tell: Tell = quietly
) -> Checked:
    """All that may stop a review but for the folder it is written to; `inspect` and `review` both call it, so that what
    the one calls ready the other makes. Arguments as `analyse`."""
    tell("reading season.toml")
    season, problems = _loaded(Path(folder))
    told = season is None or season.share.story or not share
    story, of_story = _story(Path(folder)) if told else (None, [])
    if season is None:
        return Checked(problems=SeasonError([*problems, *of_story]).problems)
    tell("reading the loggers and the books")
    readings, unread = read_what_can_be(season)
    season = readings.season  # of a winter that still runs: as far as it was read
    last, of_last = _last_readings(season, against, tell)
    problems = (*problems, *unread, *of_last, *of_story)
    if share and not of_story:  # what may not leave is looked for in the story too
        unfit = unfit_to_share(readings, last, _name(season, against) if last is not None else "")
        problems += tuple(problem for problem in unfit if problem.level == "problem")
        warnings = (*readings.warnings, *(problem for problem in unfit if problem.level == "warning"))
        readings = replace(readings, warnings=warnings)
    if problems:
        return Checked(season=season, readings=readings, problems=SeasonError(problems).problems)
    private: tuple[Private, ...] = ()
    if share:
        private = private_words(readings, last)
        readings, last = shared(readings, last)
    whole = Checked(season=season, readings=readings, last=last, story=story, private=private)
    return _figures_checked(whole, story, share, tell) if story is not None and story.sections else whole


def _figures_checked(whole: Checked, story: Story, share: bool, tell: Tell) -> Checked:
    """A story that quotes figures can only be judged by the measured season: by the sections it quotes where each is
    measured by itself and soon, else by the whole review."""
    from reportgen.site.render import document_of
    from reportgen.site.story import figure_faults

    review, readings = None, whole.readings
    measured: Mapping[str, Any] = {}
    if readings is not None and story.sections <= MEASURES.keys():
        measured = _sections(readings, story.sections, whole.last)
        document: Mapping[str, Any] = {name: plain(section) for name, section in measured.items()}
    else:
        review = _reviewed(whole, tell)
        document = document_of(review, share=share)
    faults = figure_faults(story, document, shared=share)
    return replace(whole, review=review, measured=measured, problems=tuple(faults))


def _reviewed(checked: Checked, tell: Tell) -> Review:
    """Measures and weighs what was found sound; raises SeasonError where it was not."""
    if checked.problems or checked.readings is None:
        raise SeasonError([*checked.problems, *checked.warnings])
    return checked.review or _weighed(checked.readings, checked.last, tell, checked.measured)


def _story(folder: Path) -> tuple[Story | None, list[Problem]]:
    """The grower's story as far as it can be read; what draws is only imported where there is one."""
    if not is_there(folder, STORY):
        return None, []
    from reportgen.site.story import read_story

    return read_story(folder)


def _loaded(folder: Path) -> tuple[Season | None, tuple[Problem, ...]]:
    try:
        return load_what_can_be(folder)
    except SeasonError as error:
        return None, error.problems


def _weighed(readings: Readings, last: Readings | None, tell: Tell, measured: Mapping[str, Any]) -> Review:
    from reportgen.counsel import counsel  # late, with all that judges: a fault of the folder is told without it
    from reportgen.counsel.results import Results
    from reportgen.review import Review

    tell(f"measuring {listed(name for name in MEASURES if name != 'record')}")
    results = _measure(readings, last, tell, measured)
    tell("weighing the findings")
    return Review(**{name: getattr(results, name) for name in Results.__slots__}, counsel=counsel(results))


def _last_readings(
    season: Season, against: str | Path | None, tell: Tell
) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Last winter and all that is wrong with it, its files named from this winter's folder."""
    folder = against
    if folder is None and season.last_season is not None:
        folder = season.folder / season.last_season.folder
    if folder is None:
        return None, ()
    tell("reading last winter")
    last, problems = _loaded(Path(folder))
    readings, unread = read_what_can_be(last) if last is not None else (None, ())
    name = _name(season, against)
    return readings, tuple(replace(p, file=f"{name}/{p.file}") for p in (*problems, *unread))


def _name(season: Season, against: str | Path | None) -> str:
    """The folder of last winter, as it was named."""
    return str(against) if against is not None or season.last_season is None else season.last_season.folder


def _sections(readings: Readings, names: Iterable[str], last: Readings | None) -> dict[str, Any]:
    """Those sections, measured; frost and heat share the house, and what last winter bought may still serve."""
    wanted = [name for name in MEASURES if name in set(names)]
    model = house_model(readings) if {"frost", "heat"} & set(wanted) else None
    measures: Mapping[str, Callable[[Readings], Any]] = {
        **MEASURES,
        "frost": partial(frost, model=model),
        "heat": partial(heat, house=model),
        "harvest": partial(harvest, last=last),
    }
    return {name: measures[name](readings) for name in wanted}


def _measure(readings: Readings, last: Readings | None, tell: Tell, known: Mapping[str, Any]) -> Results:
    from reportgen.counsel.results import Results
    from reportgen.effects import effects
    from reportgen.winters import winters

    measured = {**known, **_sections(readings, MEASURES.keys() - known.keys(), last)}
    measured |= {"house": identity(readings), "weather": weather(readings)}
    tell("taking the weather out of each change")
    changes = effects(readings)
    tell("setting this winter beside last")
    compared = winters(readings, last, measured)
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
    checked = check(folder, against=against, share=share, tell=tell)
    found = _reviewed(checked, tell)
    tell("drawing the pages")
    write_site(found, Path(out), story=checked.story, share=share, private=checked.private, tell=tell)
    return found
