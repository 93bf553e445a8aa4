"""plan.ics by a calendar library's own reading and RFC 5545's rules; ticks.csv; neither tells what is private."""

from __future__ import annotations

import csv
import datetime as dt
import html
import io
import json
from dataclasses import replace
from pathlib import Path

from icalendar import Calendar

from reportgen.counsel.cautions import FUEL, LOCAL
from reportgen.counsel.grounds import BY_TICKS, PlanStep
from reportgen.effects.trial import plan_from
from reportgen.readings.folded import PrivateName
from reportgen.site.plan_files import calendar, ticks
from reportgen.site.seen_words import seen_in
from reportgen.site.share import search
from reportgen.site.tick_sheet import tick_sheet

D = dt.date
NIGHTS = tuple((night.night, night.on) for night in plan_from(D(2026, 11, 2)))
PLAN = (
    PlanStep(row="Before the frost", from_=D(2026, 11, 3), to=D(2026, 11, 23), what="Clear the heater; test, twice",
             why="it stood still: −1.2\u00a0°C", lever=None, caution=FUEL),
    PlanStep(row="Keep", from_=D(2026, 11, 17), to=D(2027, 4, 3), what="“Größe \\ 1” up", why="less heat", lever="x",
             caution=None),
    PlanStep(row="Try", from_=NIGHTS[0][0], to=NIGHTS[-1][0], what="“fan” on and off", why="so far nothing", lever="y",
             caution=f"Fan. {LOCAL}", nights=NIGHTS),
)  # fmt: skip


def text() -> str:
    return calendar(PLAN, "A winter, cold", D(2026, 4, 12))


def test_a_calendar_library_reads_every_entry_back() -> None:
    """All-day by DATE values, the end exclusive (3.6.1); words with commas, backslashes and umlauts come back whole."""
    read = Calendar.from_ical(text())
    events = list(read.walk("VEVENT"))
    first = events[0]
    assert (first.decoded("dtstart"), first.decoded("dtend")) == (D(2026, 11, 3), D(2026, 11, 24))
    assert str(first["summary"]) == "Before the frost: Clear the heater; test, twice"
    assert FUEL in str(first["description"])
    assert str(events[1]["summary"]) == "Keep: “Größe \\ 1” up"
    assert all(
        isinstance(e.decoded("dtstart"), dt.date) and not isinstance(e.decoded("dtstart"), dt.datetime) for e in events
    )
    assert not list(read.walk("VALARM")) and read["version"] == "2.0" and read["prodid"]


def test_the_rules_of_the_standard_hold_byte_by_byte() -> None:
    """RFC 5545: lines end in CRLF and have at most 75 octets (3.1), each entry has UID and DTSTAMP (3.6.1), UIDs are
    its own, the stamp is in UTC and of the season's last day."""
    raw = text().encode("utf-8")
    assert raw.endswith(b"\r\n") and b"\n" not in raw.replace(b"\r\n", b"")
    assert max(len(line) for line in raw.split(b"\r\n")) <= 75
    raw.decode("utf-8")
    for line in raw.split(b"\r\n"):
        line.decode("utf-8")  # no letter is cut in two
    events = list(Calendar.from_ical(text()).walk("VEVENT"))
    uids = [str(event["uid"]) for event in events]
    assert len(set(uids)) == len(uids) > 3
    assert {event["dtstamp"].to_ical() for event in events} == {b"20260412T000000Z"}
    assert b"VALARM" not in raw and b"TZID" not in raw


def test_the_same_plan_gives_the_same_bytes() -> None:
    """No clock, no chance."""
    assert text() == text()


def test_a_trial_is_told_by_its_blocks_and_a_long_row_by_its_ends() -> None:
    """Every night of the trial lies in one entry, on or off as planned; 137 days of film do not fill a calendar."""
    events = list(Calendar.from_ical(text()).walk("VEVENT"))
    blocks = [e for e in events if str(e["summary"]).startswith("Try")]
    told = {
        e.decoded("dtstart") + dt.timedelta(days=n): str(e["summary"]).endswith("(on)")
        for e in blocks
        for n in range((e.decoded("dtend") - e.decoded("dtstart")).days)
    }
    assert told == dict(NIGHTS)
    kept = [e for e in events if str(e["summary"]).startswith("Keep")]
    assert [e.decoded("dtstart") for e in kept] == [D(2026, 11, 17), D(2027, 4, 3)]


def test_ticks_have_a_line_a_night_and_end_in_their_caution() -> None:
    """date,what,on."""
    header, *rows = list(csv.reader(io.StringIO(ticks(PLAN))))
    assert header == ["date", "what", "on"]
    assert [(D.fromisoformat(row[0]), row[2] == "yes") for row in rows[:-1]] == list(NIGHTS)
    assert rows[-1][1].startswith("Take care: Fan.") and LOCAL in rows[-1][1]
    assert {row[1] for row in rows[:-1]} == {"y"}  # the lever's name, which is the diary's own word


def test_ticks_of_an_idea_are_read_again_by_its_thing() -> None:
    """The plan's row less the words that say how: what stands in the diary's `thing`."""
    step = replace(PLAN[2], what=f"Curtain{BY_TICKS}", lever=None)
    assert list(csv.reader(io.StringIO(ticks([step]))))[1][1] == "Curtain"


def test_what_is_private_is_found_in_a_calendar_though_its_lines_are_folded() -> None:
    """A name cut in two by a line's end, or with an escaped comma in it, is the name."""
    long = PlanStep(row="Keep", from_=D(2026, 11, 1), to=D(2026, 11, 2), what=f"{'x' * 55} Owlbarrow, Upper Lane",
                    why="w", lever=None, caution=None)  # fmt: skip
    data = calendar((long,), "t", D(2026, 4, 12)).encode("utf-8")
    assert b"Owlbarrow" not in data
    assert "Owlbarrow, Upper Lane" in "\n".join(seen_in("data/plan.ics", data))
    try:
        search({"data/plan.ics": data}, (PrivateName("Owlbarrow"),))
    except Exception as error:
        assert "Owlbarrow" in str(error)
    else:
        raise AssertionError("told")


def test_the_sample_s_plan_lies_beside_its_page(sample_site: Path) -> None:
    """As many entries as the plan asks for; each row's words stand on the first page and in the calendar."""
    document = json.loads((sample_site / "data" / "review.json").read_text(encoding="utf-8"))
    read = Calendar.from_ical((sample_site / "data" / "plan.ics").read_bytes())
    summaries = "\n".join(str(event["summary"]) for event in read.walk("VEVENT"))
    page = (sample_site / "index.html").read_text(encoding="utf-8")
    assert document["plan"] and all(step["what"] in summaries for step in document["plan"])
    assert 'href="data/plan.ics"' in page
    assert (sample_site / "data" / "ticks.csv").is_file() is ('href="data/ticks.csv"' in page)


def test_the_sheet_to_print_has_a_box_for_each_night_and_its_caution() -> None:
    """One line a night of the trial, on or off as planned; words escaped; nothing is fetched; none without a trial."""
    page = tick_sheet(PLAN, "A <b>winter</b>")
    assert page.count('class="box"') == len(NIGHTS)
    assert page.count("<b>on</b>") == sum(on for _, on in NIGHTS)
    assert "Fan." in page and LOCAL in page and "A &lt;b&gt;winter&lt;/b&gt;" in page
    assert "default-src 'none'" in html.unescape(page) and "http" not in page.replace("http-equiv", "")
    assert tick_sheet(PLAN[:2], "A winter") == ""
