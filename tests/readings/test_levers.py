"""Levers: diary lines that are one thing, its states over the season, and every `undoes` that is not clear."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from reportgen.problems import Problem
from reportgen.readings.books import Books, read_books
from reportgen.readings.lever_types import Lever
from reportgen.readings.questions import questions
from reportgen.season.models import Season

HEAD = "date,time,kind,what,touches,until,undoes,thing\n"
TAPE = "2025-12-10,11:30,change,Vents taped shut,air,,{},\n"
OFF = "2026-02-21,11:30,change,Tape taken off,air,,{},\n"


def season(folder: Path, **more: Any) -> Season:
    """From 18 October to 12 April in Prague: 177 days and no hour more, since both clock changes lie in it."""
    values = {
        "folder": folder,
        "format": 1,
        "title": "A winter",
        "first_day": dt.date(2025, 10, 18),
        "last_day": dt.date(2026, 4, 12),
        "time_zone": "Europe/Prague",
    }
    return Season.model_validate(values | more)


def read(folder: Path, *lines: str) -> tuple[Books, list[Problem]]:
    """The books of a season whose diary has these lines."""
    (folder / "diary.csv").write_text(HEAD + "".join(lines), encoding="utf-8")
    return read_books(season(folder))


def told(folder: Path, *lines: str) -> list[tuple[str, int | None, str]]:
    """Slug, line and what to do of everything that is told."""
    return [(p.slug, p.line, p.todo) for p in read(folder, *lines)[1]]


def shown(lever: Lever) -> list[tuple[str, str, bool]]:
    """The states as local times, without the season's own ends."""
    return [(f"{s.from_:%m-%d %H:%M}", f"{s.to:%m-%d %H:%M}", s.on) for s in lever.states]


@pytest.mark.parametrize("undoes", ["2025-12-10", "10.12.2025", "Vents taped shut", "vents  taped SHUT"])
def test_a_change_and_its_undoing_are_one_lever(tmp_path: Path, undoes: str) -> None:
    """Named by date or by words: off, on for 73 days (10 December to 21 February, both 11:30), off again."""
    books, problems = read(tmp_path, TAPE.format(""), OFF.format(undoes))
    (lever,) = books.levers
    assert not problems
    assert (lever.name, lever.lines, lever.touches) == ("Vents taped shut", (2, 3), ("air",))
    assert lever.entries == (dt.date(2025, 12, 10), dt.date(2026, 2, 21))
    assert dict(lever.undone) == {3: 2}
    assert shown(lever) == [
        ("10-18 00:00", "12-10 11:30", False),
        ("12-10 11:30", "02-21 11:30", True),
        ("02-21 11:30", "04-13 00:00", False),
    ]
    assert (lever.hours_on, lever.hours_off) == (73 * 24, 177 * 24 - 73 * 24)


def test_a_change_alone_is_on_to_the_end(tmp_path: Path) -> None:
    """Without a time it counts from noon; hours on and off are those since and before."""
    (lever,) = read(tmp_path, "2025-10-28,,change,Film hung,envelope,,,bubble film\n")[0].levers
    assert shown(lever) == [("10-18 00:00", "10-28 12:00", False), ("10-28 12:00", "04-13 00:00", True)]
    assert lever.hours_off == 10 * 24 + 12 + 1  # 26 October has 25 hours in Prague (EU 2000/84/EC)
    assert (lever.thing, dict(lever.reasons)) == ("bubble film", {})


def test_on_again_is_the_same_lever(tmp_path: Path) -> None:
    """Tape on, off, on again, and off by the words of the first: the one that holds is taken back."""
    lines = (
        TAPE.format(""),
        "2025-12-20,,change,Tape taken off,air,,2025-12-10,\n",
        "2026-01-05,,change,Taped again,air,,2025-12-20,\n",
        "2026-02-01,,change,Tape off for spring,air,,Vents taped shut,\n",
    )
    books, problems = read(tmp_path, *lines)
    (lever,) = books.levers
    assert not problems
    assert [on for _, _, on in shown(lever)] == [False, True, False, True, False]
    assert dict(lever.undone) == {3: 2, 4: 3, 5: 4}


def test_rows_of_a_spell_are_one_lever_and_each_last_night_is_on(tmp_path: Path) -> None:
    """From noon of the first day to noon after the last night; overlapping rows are one stretch."""
    rows = (("2026-01-05", "2026-01-07"), ("2026-01-10", "2026-01-12"), ("2026-01-12", "2026-01-14"))
    books, _ = read(tmp_path, *(f"{a},,spell,Curtain drawn,envelope,{b},,\n" for a, b in rows))
    (lever,) = books.levers
    assert [(a, b) for a, b, on in shown(lever) if on] == [
        ("01-05 12:00", "01-08 12:00"),
        ("01-10 12:00", "01-15 12:00"),
    ]
    assert lever.hours_on == (3 + 5) * 24


def test_a_spell_may_take_something_back_for_a_while(tmp_path: Path) -> None:
    """Vents opened for three nights while the tape is on: off for those, then on again."""
    spell = "2026-01-05,,spell,Tape off to air,air,2026-01-07,2025-12-10,\n"
    (lever,) = read(tmp_path, TAPE.format(""), spell, OFF.format("2025-12-10"))[0].levers
    assert [(a, b) for a, b, on in shown(lever) if on] == [
        ("12-10 11:30", "01-05 12:00"),
        ("01-08 12:00", "02-21 11:30"),
    ]


def test_a_spell_is_ended_for_good(tmp_path: Path) -> None:
    """A curtain taken down in the middle of a row that runs on: off from then."""
    spell = "2026-01-05,,spell,Curtain drawn,envelope,2026-01-20,,\n"
    down = "2026-01-10,,change,Curtain taken down,envelope,,Curtain drawn,\n"
    (lever,) = read(tmp_path, spell, down)[0].levers
    assert [(a, b) for a, b, on in shown(lever) if on] == [("01-05 12:00", "01-10 12:00")]


def test_a_line_of_before_the_season_is_taken_back(tmp_path: Path) -> None:
    """A film of last winter, in the same diary, is on from the season's first midnight until it comes off."""
    film = "2025-02-01,,change,Film hung,envelope,,,film\n"
    books, problems = read(tmp_path, film, "2026-03-01,,change,Film taken off,envelope,,2025-02-01,film\n")
    (lever,) = books.levers
    assert [p.slug for p in problems] == ["outside-season"]
    assert [e.what for e in books.diary] == ["Film taken off"]
    assert shown(lever) == [("10-18 00:00", "03-01 12:00", True), ("03-01 12:00", "04-13 00:00", False)]
    alone = read(tmp_path, film)[0]
    assert alone.levers == ()


def test_what_was_put_up_before_the_season_and_stayed_is_known(tmp_path: Path) -> None:
    """On all winter: no lever to judge, yet the house is tight by it. Gone again before the season, or undone in it:
    not among these; nor is a spell that was over, or an idea."""
    film = "2025-02-01,,change,Film hung,envelope,,,film\n"
    books, _ = read(tmp_path, film)
    (standing,) = books.levers_before
    assert [(s.on, s.hours) for s in standing.states] == [(True, 177 * 24.0)]
    assert [e.what for e in books.diary_before] == ["Film hung"] and books.diary == ()
    priced = "date,kind,what,touches,cost,years\n2025-02-01,change,Film hung,envelope,44,4\n"
    (tmp_path / "diary.csv").write_text(priced, encoding="utf-8")
    (hung,) = read_books(season(tmp_path, currency="EUR"))[0].diary_before
    assert (hung.cost, hung.years) == (44.0, 4.0)  # it serves in this winter too
    gone = "2025-09-01,,change,Film down,envelope,,2025-02-01,film\n"
    for more in (gone, gone.replace("2025-09-01,", "2026-03-01,")):
        books, _ = read(tmp_path, film, more)
        assert books.levers_before == books.diary_before == ()
    assert read(tmp_path, "2025-02-01,,spell,Curtain,envelope,2025-02-03,,\n")[0].levers_before == ()
    assert read(tmp_path, "2025-02-01,,idea,Curtain,envelope,,,\n")[0].levers_before == ()


def test_ideas_events_and_cleaning_are_no_levers(tmp_path: Path) -> None:
    """What befell, what is not done yet, and what only keeps the house as it is."""
    kinds = ("event", "away", "idea", "upkeep")
    books, _ = read(tmp_path, *(f"2026-01-0{n},,{kind},Something,air,,,\n" for n, kind in enumerate(kinds, 1)))
    assert len(books.diary) == 4 and books.levers == ()


UNCLEAR = (
    ("no line", TAPE.format("") + OFF.format("Vent taped shut"), 3, "did you mean 'Vents taped shut'?"),
    ("no such day", TAPE.format("") + OFF.format("2025-12-11"), 3, "did you mean '2025-12-10'?"),
    ("nothing like it", OFF.format("xyz"), 2, "write the date of the line that this one takes back, or leave it empty"),
    ("a later line", TAPE.format("2026-02-21") + OFF.format(""), 2, "write “undoes” in the later of the two lines"),
    (
        "two lines of a day",
        TAPE.format("") + "2025-12-10,,change,Fan hung,air,,,\n" + OFF.format("2025-12-10"),
        4,
        "write the words of the one that this line takes back; or its date, if that has only one line",
    ),
    (
        "an event",
        "2025-12-10,,event,Door left open,,,,\n" + OFF.format("2025-12-10"),
        3,
        "name the change itself, or leave it empty",
    ),
    (
        "already taken back",
        TAPE.format("") + OFF.format("2025-12-10") + "2026-03-01,,change,Tape off,air,,2025-12-10,\n",
        4,
        "name the line that held then, or correct it: line 3 (2026-02-21, “Tape taken off”)",
    ),
    (
        "an idea",
        TAPE.format("") + "2026-01-10,,idea,No tape next year,air,,2025-12-10,\n",
        3,
        "make it a change if it was done, or leave “undoes” empty",
    ),
)


@pytest.mark.parametrize(("lines", "line", "todo"), [case[1:] for case in UNCLEAR], ids=[case[0] for case in UNCLEAR])
def test_an_undoes_that_is_not_clear_is_a_problem(tmp_path: Path, lines: str, line: int, todo: str) -> None:
    """It names no line, a later one, more than one, or one that cannot be taken back: told with the nearest."""
    problems = [p for p in read(tmp_path, lines)[1] if p.level == "problem"]
    assert [(p.slug, p.line, p.column, p.todo) for p in problems] == [("undoes-unclear", line, "undoes", todo)]


def test_every_unclear_undoes_is_told_at_once(tmp_path: Path) -> None:
    """Two of them in one diary are two problems, and both lines remain."""
    books, problems = read(tmp_path, TAPE.format("never"), OFF.format("nowhere"))
    assert [(p.slug, p.line) for p in problems if p.level == "problem"] == [
        ("undoes-unclear", 2),
        ("undoes-unclear", 3),
    ]
    assert len(books.diary) == 2


def test_a_spell_takes_back_in_all_its_rows_or_in_none(tmp_path: Path) -> None:
    """Two rows of one spell that disagree would be two levers of one name."""
    rows = "2026-01-01,,spell,Aired,air,2026-01-02,,\n2026-01-05,,spell,Aired,air,2026-01-06,2025-12-10,\n"
    problems = [p for p in read(tmp_path, TAPE.format("") + rows)[1] if p.level == "problem"]
    assert [p.todo for p in problems] == ["write the same under “undoes” in all rows of this spell, or in none"]


def test_lines_that_look_like_one_lever_are_asked_about(tmp_path: Path) -> None:
    """“Vents” in both and both touch air: one warning with the line to write; with `undoes` there is none."""
    lines = (TAPE.format(""), "2026-02-21,,change,Tape off the vents again,air,,{},\n")
    (problem,) = read(tmp_path, lines[0], lines[1].format(""))[1]
    assert (problem.slug, problem.level, problem.line) == ("one-lever-or-two", "warning", 3)
    assert problem.text() == (
        "diary.csv:3, undoes  [one-lever-or-two]\n"
        "  found     “Tape off the vents again” shares “vent” and touches air, as does line 2 (2025-12-10, "
        "“Vents taped shut”)\n"
        "  expected  “undoes” in a line that takes an earlier one back; else two things, each with its word under "
        "“thing”\n"
        "  to do     write 2025-12-10 under “undoes” if this line takes that one back; if both stay, leave it as it is"
    )
    assert told(tmp_path, lines[0], lines[1].format("2025-12-10")) == []


@pytest.mark.parametrize(
    "second",
    [
        "2026-01-05,,change,Vents of the shed painted,light,,,\n",
        "2026-01-05,,change,Door mended in the night,air,,,\n",
        "2026-01-05,,event,Vents frozen shut,air,,,\n",
        "2026-01-05,,idea,Vents with an opener,air,,,\n",
    ],
    ids=["other touches", "no thing in common", "an event", "an idea"],
)
def test_lines_of_two_things_are_not_asked_about(tmp_path: Path, second: str) -> None:
    """What they touch differs, or no word names a thing in both, or one of them set nothing."""
    assert told(tmp_path, TAPE.format(""), second) == []


def test_two_things_by_name_are_not_asked_about(tmp_path: Path) -> None:
    """Where both lines name their thing, that decides: unlike things are two, like ones are asked about."""
    lines = "2025-12-10,,change,Vents taped,air,,,{}\n2026-01-05,,change,Opener on the vents,air,,,{}\n"
    assert told(tmp_path, lines.format("tape", "opener")) == []
    assert [slug for slug, _, _ in told(tmp_path, lines.format("vents", "Vents"))] == ["one-lever-or-two"]


def test_one_lever_with_two_names_is_told(tmp_path: Path) -> None:
    """The first word under `thing` is taken, and the other line is told."""
    lines = "2025-12-10,,change,Vents taped,air,,,tape\n2026-01-05,,change,Tape off,air,,2025-12-10,vents\n"
    books, problems = read(tmp_path, lines)
    assert books.levers[0].thing == "tape"
    assert [(p.slug, p.line, p.column, p.level) for p in problems] == [("one-lever-or-two", 3, "thing", "warning")]


ROW = st.tuples(st.integers(0, 175), st.sampled_from(["change", "spell"]), st.integers(0, 3), st.integers(0, 20))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=st.lists(ROW, max_size=8), undoes=st.lists(st.integers(-1, 7), min_size=8, max_size=8))
def test_states_fill_the_season_without_a_gap(
    tmp_path: Path, rows: list[tuple[int, str, int, int]], undoes: list[int]
) -> None:
    """Whatever the diary: every line that sets something is in one lever; states alternate and fill 177 days."""
    day = [dt.date(2025, 10, 18) + dt.timedelta(days=n) for n, _, _, _ in rows]
    lines = [
        f"{day[i]},,{kind},Thing {name},air,{day[i] + dt.timedelta(days=long) if kind == 'spell' else ''},"
        f"{day[back] if 0 <= back < len(rows) else ''},\n"
        for i, ((_, kind, name, long), back) in enumerate(zip(rows, undoes, strict=False))
    ]
    books, _ = read(tmp_path, *lines)
    held = sorted(line for lever in books.levers for line in lever.lines)
    assert held == list(range(2, 2 + len(rows)))
    for lever in books.levers:
        assert lever.states[0].from_ == season(tmp_path).start and lever.states[-1].to == season(tmp_path).end
        for one, then in zip(lever.states[:-1], lever.states[1:], strict=True):
            assert one.to == then.from_ and one.on != then.on
        assert lever.hours_on + lever.hours_off == pytest.approx(177 * 24)


def asked(folder: Path, *abouts: str) -> tuple[list[tuple[str | None, int | None]], list[Problem]]:
    """What each question is about: topic or line; and the problems."""
    books, _ = read(
        folder,
        TAPE.format(""),
        "2025-12-10,,upkeep,New battery,,,,\n",
        "2026-01-13,,event,Heater stood still,,,,\n",
        "2026-01-20,,change,Fan hung,air,,,\n",
        "2026-01-20,,change,Film hung,envelope,,,\n",
        OFF.format("2025-12-10"),
    )
    told = [{"ask": f"What of {about}?", "about": about} for about in abouts]
    found, problems = questions(season(folder, question=tuple(told)), books.diary, books.levers)
    return [(question.topic, question.line) for question in found], problems


def test_a_question_leads_to_a_subject_or_a_line(tmp_path: Path) -> None:
    """One of the seven words; a date, of whose lines the lever goes before the battery; or the words of a line."""
    found, problems = asked(tmp_path, "hold", " Damp ", "2025-12-10", "tape taken off", "2026-01-13", "Film hung")
    assert found == [("hold", None), ("damp", None), (None, 2), (None, 7), (None, 4), (None, 6)]
    assert not problems


def test_a_question_about_nothing_is_a_problem(tmp_path: Path) -> None:
    """A near word is offered; a day with two levers asks which; every question is told at once."""
    found, problems = asked(tmp_path, "frots", "2026-01-20", "Films hung", "the dog")
    assert not found
    assert [(p.slug, p.column, p.todo) for p in problems] == [
        ("question-about-nothing", "[[question]] 1 · about", "did you mean 'frost'?"),
        ("question-about-nothing", "[[question]] 2 · about", "write the words of the one you mean"),
        ("question-about-nothing", "[[question]] 3 · about", "did you mean 'Film hung'?"),
        ("question-about-nothing", "[[question]] 4 · about", "write the date of the line it is about, as in the diary"),
    ]
