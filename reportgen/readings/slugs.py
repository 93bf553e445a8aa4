"""Every stable name of a problem or of something the checks saw, with its meaning in one line.

README.md explains each of them under *Problems*; a test holds code, this list and README.md together.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

SEASON: Mapping[str, str] = MappingProxyType(
    {
        "season-missing": "The folder, or its season.toml, is not there.",
        "toml-syntax": "season.toml is no TOML: a quote, bracket or encoding is wrong.",
        "missing-key": "season.toml lacks a key that is needed.",
        "unknown-key": "season.toml has a key nobody knows, often a slip of the pen.",
        "wrong-value": "A key has a value of the wrong kind or out of range.",
        "unknown-unit": "The unit of a column is not one its measure can have.",
        "unknown-time-zone": "time_zone is no name of the IANA list.",
        "unknown-logger": "A heater or appliance names a logger that is not there.",
        "same-name-twice": "Two loggers, heaters, appliances or crops bear one name.",
        "two-main-loggers": "Two loggers of one place both say main = true.",
        "missing-currency": "A price or cost stands somewhere, but no currency.",
        "longitude-far-from-clock": "A longitude that lies hours away from the clock of time_zone.",
        "question-about-nothing": "A question whose about names no subject and no line of the diary.",
        "path-leads-out": "A path or link leads out of the season folder.",
        "private-place-named": "A line to be shared names the place that [share] keeps private.",
        "price-in-words": "A line to be shared tells a sum of money, and [share] keeps prices private.",
    }
)

FILES: Mapping[str, str] = MappingProxyType(
    {
        "missing-file": "A file that season.toml names is not there or cannot be opened.",
        "cannot-open": "Something of that name is there, but it cannot be opened and read as a file.",
        "too-much": "More than one winter of one house can hold; the limits stand in README.md.",
        "empty-file": "A file without a line in it.",
        "not-a-table": "A file that is no CSV or XLSX table.",
        "unknown-encoding": "The encoding named in season.toml is none.",
        "missing-sheet": "The workbook has no sheet of that name.",
        "missing-column": "A column that is needed is not in the file's header.",
        "unknown-column": "A column of a book that nobody reads.",
        "same-column-twice": "Two columns of one name, so that nobody knows which is meant.",
        "too-many-cells": "A row has more cells than the header.",
    }
)

CELLS: Mapping[str, str] = MappingProxyType(
    {
        "empty-cell": "A cell that must be filled is empty.",
        "not-a-date": "A cell that should hold a date holds something else.",
        "not-a-time": "A cell that should hold a time of day holds something else.",
        "not-a-number": "A cell, or most of a column, that should hold a number holds something else.",
        "number-too-small": "A number below what it can be.",
        "number-too-large": "A number above what it can be.",
        "point-or-comma": "A number such as 1,250 that could be a thousand or a bit more than one.",
        "day-or-month": "Dates in which day and month could be swapped, and nothing settles it.",
        "unreadable-time": "Most times of a logger file cannot be read.",
        "half-day-clock": "Times of a 12-hour clock without am or pm.",
        "unknown-word": "A word that is not one of those the column may hold.",
    }
)

BOOKS: Mapping[str, str] = MappingProxyType(
    {
        "outside-season": "A row of a book whose day is not of the season; it is not counted.",
        "dates-out-of-order": "An end before its beginning.",
        "spell-without-end": "A spell in the diary without its last day.",
        "undoes-unclear": "A line that takes back no earlier line of the diary, or nobody knows which.",
        "one-lever-or-two": "Two lines of the diary that may be one thing put on and taken off.",
        "paid-once-or-twice": "One amount that stands in two books within 14 days: one purchase, or two.",
        "not-a-weight": "A weight written as a count or in a unit nobody can weigh in.",
        "more-lost-than-planted": "More plants lost than were planted.",
        "crop-spelling": "Two crops whose names look alike; they are counted as two.",
        "too-few-readings": "A book of a meter, of deliveries or of bills with too few rows to tell a use.",
        "repeated-date": "Two meter readings of one date.",
        "meter-runs-back": "A meter reading below the one before.",
        "left-too-large": "More left over than was there and came since.",
        "left-unsaid": "What was left of the last delivery is not written, so its use is not known.",
        "stock-before-season": "Stock bought before the season, and no word of what was there on the first day.",
        "cost-of-nothing": "A cost beside a delivery of nothing.",
        "bill-without-begin": "A first bill that does not say on which day it begins.",
        "bills-overlap": "A bill that begins before the one before it ends.",
        "heat-not-covered": "The meter, the deliveries or the bills leave part of the season untold.",
        "heat-value-missing": "A fuel without the heat that one unit of it gives.",
        "heating-value-unsaid": "A heat value that may be gross or net.",
        "no-heater-column": "A heater names a logger that has no column of its use.",
        "rated-power-missing": "An on/off log without the power drawn when on.",
    }
)

SEEN: Mapping[str, str] = MappingProxyType(
    {
        "impossible": "Values outside what the measure can be; set aside.",
        "sentinel": "Numbers that stand for no reading, such as −999; set aside.",
        "dead-row": "Rows that say nothing but 0 and error codes; set aside.",
        "stuck": "A value that did not move for longer than it can stand still; set aside.",
        "jump": "A few readings far from those before and after; set aside.",
        "repeated": "Several values of one instant; one is used.",
        "repeated-differ": "Two values of one instant that differ; of two files the one whose name sorts later wins.",
        "out-of-order": "Rows whose time is before that of the row above; they are put in order.",
        "no-reading-in-season": "A logger that has no reading between the first and the last day.",
        "outside-the-season": "Rows before the first or after the last day; set aside.",
        "above-100": "Humidity a little above 100 %, kept as 100.",
        "above-50": "Air above 50 °C, used: the sun may have shone on the sensor.",
        "saturated": "Hours in which the humidity stood at 99.5 % or more.",
        "counter-reset": "A running counter that began again; mended.",
        "stray-unit": "Cells with a unit of their own, read in that unit.",
        "interpolated": "A stretch with far more decimals than its file: computed, not measured; set aside.",
        "fahrenheit-as-celsius": "A temperature in °C whose level and swing look like °F.",
        "fraction-as-percent": "Percentages that never exceed 1: they are written as 0 to 1.",
        "loggers-disagree": "Two loggers of one place further apart than their sensors allow.",
        "one-folder-one-house": "Two crop loggers whose nights lie too far apart for one house.",
        "sun-on-sensor": "A sensor that is far warmer than the others when the sun shines.",
        "probe-in-the-air": "A soil probe that swings with the air as no soil at its depth can.",
        "columns-exchanged": "A column of air that swings like a bed, and one of the bed that swings like air.",
        "clock-hour-wrong": "A stretch in which a logger's clock stood an hour wrong.",
        "clock-drift": "A logger's clock that runs away from another's.",
        "hour-that-never-was": "Times in the hour that the clock change leaves out; set aside.",
        "hour-told-once": "The hour that comes twice stands in the file once; which one is not known.",
        "day-month-swapped": "A stretch with day and month swapped; put right where the file settles it.",
        "rows-astray": "Rows outside the season whose neighbours in the file lie inside it.",
        "days-back-and-forth": "A file whose rows leap back by days more than a few times.",
        "time-told-otherwise": "Many rows bear a time that another row of their file has with another value.",
        "empty-column": "A declared column without a value.",
    }
)

PROBLEMS: Mapping[str, str] = MappingProxyType({**SEASON, **FILES, **CELLS, **BOOKS})
SLUGS: Mapping[str, str] = MappingProxyType({**PROBLEMS, **SEEN})
