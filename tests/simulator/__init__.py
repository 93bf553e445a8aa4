"""A seeded, simulated greenhouse: the truth that the tests know and the readers do not.

In five lines, a season folder with a change whose effect is known:

    weather = synthetic(Climate(), "2025-10-31T23:00", "2026-03-31T22:00", seed=1)
    film = Change(at=pd.Timestamp("2026-01-10 12:00", tz="Europe/Prague"), alters={"u_w_m2k": 2.4},
                  what="Bubble film", touches=("envelope",), hoped_for=("warmer nights",), timed=True)
    winter = simulate(weather, HouseParams(), [film], seed=1)
    folder = write_season(tmp_path / "season", winter)          # season.toml, loggers/, diary.csv
    truth = true_effect(winter, film, "lift")                   # K, mean over the 21 garden days after it

- A Change with `alters={}` does nothing at all; one without `what` is kept out of the diary: a hidden cause.
- `winter.without(film)` is its twin: the same weather, house and draughts, that one change never made.
- `HouseParams(heater_w=1500, hold_c=4)` heats; `default_loggers(heated, step_min, exact)` or LoggerSpec of your own
  say what is written and how wrong it is; `winter.frame` holds every true value by step.
- `from_hourly` takes a real hourly station record in place of `synthetic`.
- A winter of ten-minute steps takes about a second; 20- or 30-minute steps (`step_s=`) half or a third of that.
- `tests/scenarios.py` holds ready winters for the table of findings that must and must not appear.
"""

from simulator.house import Change, HouseParams, Simulated, simulate
from simulator.logger import LoggerSpec, Sensor
from simulator.truth import OUTCOMES, outcomes, true_effect
from simulator.weather import Climate, Spell, from_hourly, synthetic
from simulator.write import default_loggers, write_season

__all__ = [
    "OUTCOMES",
    "Change",
    "Climate",
    "HouseParams",
    "LoggerSpec",
    "Sensor",
    "Simulated",
    "Spell",
    "default_loggers",
    "from_hourly",
    "outcomes",
    "simulate",
    "synthetic",
    "true_effect",
    "write_season",
]
