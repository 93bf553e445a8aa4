"""The record: how much of the winter was logged, where the gaps are, what was set aside and why."""

from __future__ import annotations

from reportgen.charts import record_tables as tables
from reportgen.charts.record_sides import sides
from reportgen.charts.record_strips import strips_drawing
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.record_sensors import speaks
from reportgen.measures import record_words as say
from reportgen.measures.agreement import COMPARED
from reportgen.measures.there import There, outdoors_named
from reportgen.review import Review
from reportgen.wording import Wording, share_of

MISSING = (
    "This page would show how much of the season each logger recorded, where the gaps are, and what was set aside and "
    "why. No logger left a reading in the season's days. Look whether first_day and last_day are those of the files; "
    "then let one logger beside the crop and one outdoors, out of the sun, write every ten\u00a0minutes, and read "
    "them off once a month."
)
OUTDOOR = "Hang one logger outdoors in the shade: without it the weather cannot be taken out of anything."
OFTEN = "Let every logger write each ten\u00a0minutes or so, day and night: a reading now and then tells no night."
BAND = "then every count says how much of it the sensor leaves open."
BATTERY = "Read the loggers off once a month: a flat battery then costs days, not weeks."
ICE = (
    "Put each sensor, in a tight bag, into a glass of melting ice in autumn and again in spring, and note what it "
    "reads: it should say {freezing}. Write both into the key checks of its logger."
)


def page(review: Review) -> Page:
    """The page, or the one note on what to log where no channel could be read."""
    record = review.record
    if not record.channels or all(channel.first is None for channel in record.channels):
        note = Note(text=MISSING, kind="missing", title="The record")
        return Page(slug="record", headline="Nothing was recorded", lead=MISSING, blocks=(note,), answers=False)
    blocks: list[Drawing | Table | Note | None] = [
        strips_drawing(review),
        tables.gaps(review),
        *sides(review),
        tables.side_by_side(review),
        tables.checks(review),
        tables.files(review),
        tables.channels(review),
        _better(review),
    ]
    kept = tuple(block for block in blocks if block is not None)
    return Page(slug="record", headline=_headline(review), lead=_lead(review), blocks=kept)


def _headline(review: Review) -> str:
    channel = speaks(review)
    if channel.why_seldom:
        channels = [c for c in review.record.channels if c.first is not None]
        every = "Every channel" if len(channels) > 1 and all(c.why_seldom for c in channels) else channel.name
        return f"{every} was read too seldom to tell a night"
    share = share_of(channel.share)
    words = f"{share[:1].upper()}{share[1:]} of the {There.of(review.readings).season} is on record"
    return f"{words} beside the crop" if channel.where == "crop" else words


def _lead(review: Review) -> str:
    record, channel = review.record, speaks(review)
    mine = record.gaps[(record.gaps["logger"] == channel.logger) & (record.gaps["measure"] == channel.measure)]
    read, used = sum(f.rows_read for f in record.files), sum(f.rows_used for f in record.files)
    parts = [f"Counted on {channel.name}, {say.step_words(channel.step_s)}."]
    if channel.why_seldom:
        parts = [f"{channel.why_seldom}{'' if channel.mean is None else '; only means are told'}."]
    elif len(mine):
        first = mine.iloc[0]
        gap = "Its longest gap is" if len(mine) > 1 else "Its one gap is"
        parts.append(f"{gap} {say.long_words(float(first['hours']))}, from {say.moment(first['start'])}.")
    if read:
        parts.append(f"Of the rows in all files, {share_of(used / read)} are used.")
    return " ".join(parts)


def _better(review: Review) -> Note | None:
    """What would make next winter's record better, from what this one lacks."""
    record, season, w = review.record, review.season, Wording.of(review.season)
    seldom = {c.name for c in record.channels if c.why_seldom}
    bare = sorted({c.logger for c in record.channels if c.accuracy is None and c.measure in COMPARED})
    advice = (
        (any(c.why_seldom for c in record.channels), OFTEN),
        (not outdoors_named(season), OUTDOOR),
        (bool(bare), f"Write the accuracy from the data sheet into season.toml for {', '.join(bare)}: {BAND}"),
        (any((record.gaps.loc[~record.gaps["name"].isin(seldom), "hours"] >= 24.0).tolist()), BATTERY),
        (not any(logger.checks for logger in season.loggers), ICE.format(freezing=w.temp(0.0, 0))),
    )
    words = " ".join(text for wanted, text in advice if wanted)
    return Note(title="For a better record next winter", text=words) if words else None
