"""A seeded, simulated greenhouse: the truth that the tests know and the readers do not."""

from simulator.house import Change, HouseParams, Simulated, simulate
from simulator.logger import LoggerSpec, Sensor
from simulator.weather import Climate, Spell, from_hourly, synthetic
from simulator.write import default_loggers, write_season

__all__ = [
    "Change",
    "Climate",
    "HouseParams",
    "LoggerSpec",
    "Sensor",
    "Simulated",
    "Spell",
    "default_loggers",
    "from_hourly",
    "simulate",
    "synthetic",
    "write_season",
]
