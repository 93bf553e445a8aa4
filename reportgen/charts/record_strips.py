"""The coverage strips: one lane a channel, one bar a day, as tall as the share of the day that was recorded."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

import pandas as pd

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.look import Look, change_marks
from reportgen.charts.place import days, shorten
from reportgen.charts.theme import Size
from reportgen.charts.types import Drawing
from reportgen.measures import record_words as say
from reportgen.measures.record import ChannelRecord, Record
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.units import MEASURES, Kind
from reportgen.wording import count, of_all, share_of, share_words

LANE, BAR = 37, 14  # heights: a channel with its name, its strip
MOST_WORDS = 44  # of a picture told to the ear, with room for its end
CLASSES = 10  # heights of the bars: tenths of the day, so that equal neighbours can be joined
TOKENS: Mapping[Kind, str] = MappingProxyType(  # of a channel inside, by its kind
    {"air": "warm", "humidity": "humid", "soil": "soil", "moisture": "soil", "light": "sun"}
)


def strips_drawing(review: Review) -> Drawing:
    """The chart of every channel that has a reading in the season."""
    record, winter = review.record, There.of(review.readings).season
    wide, narrow = theme.sizes(LANE * len(record.channels))
    return Drawing(
        uid="record_days",
        title=_title(record, winter),
        subtitle="Share of each day recorded, for every channel: a full bar is a whole day, no bar nothing on record",
        label="Strips of how much of each day every channel recorded",
        description=_in_words(record),
        wide=_draw(review, wide),
        narrow=_draw(review, narrow),
        table=days_table(record),
        shown=months_table(record),
        notes=(
            "Two readings are joined when no more than three usual steps, or 15\u00a0minutes, lie between them, and "
            "never over more than 3\u00a0h (soil: 6\u00a0h). What lies further apart is a gap, and nothing is filled "
            "in.",
        ),
    )


def _title(record: Record, winter: str) -> str:
    whole = [c for c in record.channels if c.share >= 0.95]
    n = len(record.channels)
    if len(whole) == n:
        return (
            f"Every channel recorded nearly the whole {winter}" if n > 1 else f"Nearly the whole {winter} was recorded"
        )
    worst = min(record.channels, key=lambda c: c.share)
    words = f"{share_of(worst.share)} of the {winter}"
    if n == 1:
        return f"{worst.name} recorded {words}"
    return f"{of_all(len(whole), n, 'channel')} recorded nearly all of it; {worst.name} had {words}"


def _draw(review: Review, size: Size) -> Any:
    record, season = review.record, review.season
    domain = (float(days(season.first_day)), float(days(season.last_day)) + 1.0)
    canvas = Canvas(size=size, x_domain=domain, y_domain=(size.height, 0))
    room = int(size.plot / (theme.SMALL * theme.EM_SHARE))
    for n, channel in enumerate(record.channels):
        base = (n + 1) * size.height / len(record.channels) - 4.0
        canvas.rules([(0, base, size.plot, base)], theme.RULE2)
        token = _token(channel)
        canvas.rects(_bars(canvas, record.days, channel, base), theme.line(token), 0.85)
        canvas.words([(0, base - BAR - 7, shorten(_name(channel), room))], theme.INK)
        words = share_words(channel.share)
        canvas.words([(size.plot + 8, base - BAR / 2, words)], theme.text(token), bold=True)
    look = Look(marks=change_marks(review.readings))
    numbered = parts.draw_marks(canvas, look)
    parts.draw_time_axis(canvas)
    meta = {"marks": parts.listed(look.marks), "numbered": numbered, "domain": list(canvas.x_domain)}
    meta["plot"] = [size.left, size.left + size.plot]
    return canvas.chart(**meta)


def _token(channel: ChannelRecord) -> str:
    measure = MEASURES[channel.measure]
    outdoors = channel.where == "outdoor" or measure.outdoors_of
    return "neutral" if outdoors else TOKENS.get(measure.kind, "neutral")


def _name(channel: ChannelRecord) -> str:
    return f"{channel.logger} · {say.measure_name(channel.measure)}"


def _bars(
    canvas: Canvas, table: pd.DataFrame, channel: ChannelRecord, base: float
) -> list[tuple[float, float, float, float]]:
    """Boxes of the days, neighbours of equal height as one."""
    mine = table[table["name"] == channel.name]
    tenths = [_tenths(float(share)) for share in mine["share"]]
    starts = [float(canvas.px(days(day))) for day in mine["date"]]
    ends = [*starts[1:], float(canvas.size.plot)]
    boxes = []
    for height, run in itertools.groupby(zip(tenths, starts, ends, strict=True), key=lambda day: day[0]):
        stretch = list(run)
        if height:
            boxes.append((stretch[0][1], base - BAR * height / CLASSES, stretch[-1][2], base))
    return boxes


def _tenths(share: float) -> int:
    """Tenths of a day, never 0 where something and never all where something is missing."""
    if share <= 0:
        return 0
    return CLASSES if share > 0.999 else min(max(round(share * CLASSES), 1), CLASSES - 1)


def days_table(record: Record) -> pd.DataFrame:
    """Every channel and day."""
    return pd.DataFrame(
        {
            "date": record.days["date"],
            "channel": record.days["name"],
            "hours recorded": record.days["hours"],
            "share of the day %": 100 * record.days["share"],
        }
    )


def months_table(record: Record) -> pd.DataFrame:
    """Share of each month by channel, as words for the page."""
    table = record.months.assign(words=[share_words(float(share)) for share in record.months["share"]])
    wide = table.pivot(index="name", columns="month", values="words")
    wide = wide.reindex([channel.name for channel in record.channels])
    wide.columns = pd.Index([f"{day:%Y-%m}" for day in wide.columns])
    return wide.rename_axis("channel").reset_index()


def _in_words(record: Record) -> str:
    """The channels with the least on record, as many as a picture's words may hold, then how many more."""
    least = sorted(record.channels, key=lambda c: c.share)
    told = [f"{c.name} {share_words(c.share)}" for c in least]
    kept = told[:1]
    while len(kept) < len(told) and len(" ".join([*kept, told[len(kept)]]).split()) <= MOST_WORDS:
        kept.append(told[len(kept)])
    more = len(told) - len(kept)
    rest = f"; {count(more, 'more channel')} had no less" if more else ""
    return f"Least first: {'; '.join(kept)} of the season{rest}."
