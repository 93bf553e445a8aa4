"""Each week's picking over the warmth of the four weeks before it, the darker half of the weeks marked apart."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.build import Dots, Look, points
from reportgen.charts.types import Drawing
from reportgen.measures.harvest_before import WEEKS, lighter_from, weeks_before
from reportgen.review import Review
from reportgen.wording import Wording, count, number

FEWEST = 8  # weeks: fewer show nothing


def before_drawing(review: Review) -> Drawing | None:
    """The chart, or None with too few weeks or no crop air."""
    h, w = review.harvest, Wording.of(review.season)
    found = weeks_before(review.readings, [x.monday for x in h.weeks], [x.kg for x in h.weeks])
    found = found.dropna(subset=["warmth_c"])
    if len(found) < FEWEST:
        return None
    frame = pd.DataFrame({"x": found["warmth_c"].map(w.temp_value), "y": found["kg"].map(w.mass_value)})
    unit = str(found["light_unit"].iloc[0])
    middle = lighter_from(found)
    lit = middle == middle
    bright = found["light"] >= middle if lit else pd.Series(True, index=found.index)
    dots = [Dots(frame=frame[bright], token="sun" if lit else "target", shape="circle", area=46)]
    if lit:
        dots.append(Dots(frame=frame[~bright], token="cold", shape="square", area=46))
    wide, narrow = points(tuple(dots), Look(unit=w.mass_unit, x_title=f"mean crop air of the {WEEKS} weeks before, "
                                            f"{w.temp_unit}"))  # fmt: skip
    table = pd.DataFrame(
        {
            "week from": found["week"],
            f"{w.mass_unit} picked": frame["y"],
            f"crop air of the {WEEKS} weeks before {w.temp_unit}": frame["x"],
        }
    )
    key = ""
    if lit:
        table[f"light of the {WEEKS} weeks before, {unit}"] = found["light"]
        key = f" Round: the lighter half of the weeks ({number(middle, 1)} {unit} and more); square: the darker half."
    return Drawing(
        uid="harvest_before",
        title="What was picked, beside the warmth and light of the weeks before",
        subtitle=f"{w.mass_unit} picked in a week, over the mean crop air of the {WEEKS} weeks before it.{key}",
        label="Chart of the weight picked each week over the warmth of the weeks before",
        description=f"{count(len(found), 'week')}; warmth and light rise and fall together, so neither can be named "
        "as the cause.",
        wide=wide,
        narrow=narrow,
        table=table,
        notes=(
            "To be looked at, not a cause: what was ripe, what was wanted in the kitchen, warmth and light all "
            "moved together.",
        ),
    )
