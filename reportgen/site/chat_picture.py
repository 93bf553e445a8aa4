"""The handout as one picture for a group chat: 1080 × 1350 pixels, no word under 24, a PNG of few colours.

All words are drawn in one font that the drawing library brings with it (Liberation Sans, which holds the minus sign and
the words of most of Europe), so a picture is the same on every machine. Places are worked out with the widths of a
wider font, so nothing touches and nothing is cut.
"""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from reportgen.charts import theme
from reportgen.charts.handout import Views
from reportgen.charts.handout_parts import Handout
from reportgen.charts.handout_words import beside, named_short
from reportgen.drawing.effects import Row
from reportgen.drawing.season_types import Season
from reportgen.drawing.season_wide import CHAT, season_wide
from reportgen.drawing.still import still
from reportgen.site.chat_parts import EDGE, INNER, WIDTH, Block, changes, heading, lines, rule, shelf

HEIGHT, FONT = 1350, "Liberation Sans"
COLORS = 255  # of the palette
LOW, MORE = 190, 180  # the band of nights alone, and how much it may grow
SECTION = 40.0  # at most between two sections
SAID = ("Keep", "Undo", "Try")
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


@dataclass(frozen=True, kw_only=True, slots=True)
class Choice:
    """How much of each part the picture holds."""

    clauses: int
    rows: int
    whole: bool  # the season with all its bands; else the nights alone
    steps: int  # of each row of the plan


CHOICES = tuple(
    Choice(clauses=clauses, rows=rows, whole=whole, steps=steps)
    for steps in (2, 1)
    for clauses, whole, rows in (
        (3, True, 4),
        (3, True, 3),
        (2, True, 4),
        (3, False, 4),
        (2, False, 4),
        (2, False, 3),
        (1, False, 4),
        (2, False, 2),
        (1, False, 3),
        (1, False, 2),
    )
)


def png(sheet: Handout, seen: Views) -> bytes:
    """The picture's bytes, without metadata; the same sheet gives the same bytes."""
    return png_of(svg(sheet, seen))


def png_of(picture: str) -> bytes:
    """An SVG as a picture file of few colours, without metadata."""
    import vl_convert  # costs a tenth of a second
    from PIL import Image

    drawn = Image.open(io.BytesIO(vl_convert.svg_to_png(picture, scale=1))).convert("RGB")
    bare = Image.new("RGB", drawn.size)
    bare.paste(drawn)
    few = bare.quantize(colors=COLORS, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    out = io.BytesIO()
    few.save(out, "PNG", optimize=True)
    return out.getvalue()


def svg(sheet: Handout, seen: Views) -> str:
    """The picture as SVG in light colours, the fullest choice that fits."""
    season = {whole: _season(seen.season, whole, 0.0) for whole in (True, False)}
    for choice in CHOICES:
        blocks = _blocks(sheet, seen, choice, season[choice.whole])
        free = room_left(blocks)
        if free >= 0:
            break
    stretch = min(free, MORE) if seen.season is not None and seen.season.nights else 0.0
    if stretch > 0:
        blocks = _blocks(sheet, seen, choice, _season(seen.season, choice.whole, stretch))
    blocks = _with_answers(sheet, blocks)
    return laid_out(blocks)


def room_left(blocks: list[Block]) -> float:
    """Pixels of the picture's height that the blocks leave; below 0 they do not fit."""
    return HEIGHT - 2 * EDGE - sum(block.height for block in blocks)


def _blocks(sheet: Handout, seen: Views, choice: Choice, season: Block | None) -> list[Block]:
    head = [lines([sheet.title], 26, color="ink2"), heading(sheet.clauses[: choice.clauses])]
    for one in sheet.safety[:1]:
        head += [lines([one.words], 25, bold=True), lines([one.caution], 24, color="ink2", most=4)]
    return [
        *head,
        *([season] if season is not None else []),
        *_changes(sheet, seen, choice),
        *_plan(sheet, choice),
        *_foot(sheet, seen),
    ]


def _season(view: Season | None, whole: bool, stretch: float) -> Block | None:
    if view is None:
        return None
    frame = replace(CHAT, nights=(CHAT.nights if whole else LOW) + stretch)
    kept = view if whole or view.nights is None else replace(view, damp=None, heat=None, picked=None)
    drawn = season_wide(replace(kept, uid="chat"), frame)
    found = _VIEW.search(drawn)
    assert found is not None
    return Block(inner=drawn, height=float(found[2]), nested=True)


def _changes(sheet: Handout, seen: Views, choice: Choice) -> list[Block]:
    if seen.effects is None:
        return []
    rows = _chosen(seen.rows, choice.rows)
    told = [changes(rows)] if rows else []
    open_ = [row.words for row in (*seen.rows, *seen.refused) if row.mark == "open" and row not in rows]
    if open_:
        names = ", ".join(named_short(words, 20 if len(open_) > 1 else 44) for words in open_[:2])
        more = f" and {len(open_) - 2} more" if len(open_) > 2 else ""
        told.append(lines([f"○ Cannot tell: {names}{more}"], 24, color="ink2"))
    return [rule(), *told]


def _chosen(rows: Sequence[Row], most: int) -> tuple[Row, ...]:
    """The first rows, and in the last place the first that did the opposite, where none of them did."""
    kept, worse = tuple(rows[:most]), [row for row in rows if row.mark == "opposite"]
    return kept if not worse or worse[0] in kept else (*kept[:-1], worse[0])


def _plan(sheet: Handout, choice: Choice) -> list[Block]:
    """Keep, Undo and Try, and below them their cautions: those told at the head by their first words."""
    kept = [line for line in sheet.plan if line.row in SAID]
    if not kept:
        return []
    blocks = [rule(), *(shelf(line.row, ". ".join(line.steps[: choice.steps])) for line in kept)]
    told = beside([part for line in kept for part in line.cautions], [one.caution for one in sheet.safety[:1]])
    return [*blocks, lines([told], 24, color="ink2", most=4)] if told else blocks


def _foot(sheet: Handout, seen: Views) -> list[Block]:
    doubt = " Weather taken out; pale: as far as 95\u00a0% of what may be." if seen.rows else ""
    return [rule(), lines([f"{sheet.closing.partition(':')[0]}.{doubt}"], 24, color="ink2", most=2)]


def _with_answers(sheet: Handout, blocks: list[Block]) -> list[Block]:
    """Answers where there is room left, above the foot."""
    out = list(blocks)
    for one in sheet.answers:
        more = [rule(), lines([f"{one.ask} {one.answer}."], 26, bold=True), lines([one.why], 24, most=4)]
        tried = [*out[:-2], *more, *out[-2:]]
        if room_left(tried) < 0:
            break
        out = tried
    return out


def laid_out(blocks: list[Block]) -> str:
    """The blocks on paper, what room is left shared out between the sections."""
    gaps = sum(block.section for block in blocks)
    air = min(max(room_left(blocks), 0.0) / gaps, SECTION) if gaps else 0.0
    y, inner = float(EDGE), []
    for block in blocks:
        y += air if block.section else 0.0
        inner.append(f'<svg x="{EDGE}" y="{y:.1f}" width="{INNER}" height="{block.height:.1f}">{block.inner}</svg>')
        y += block.height
    page = (
        f'<svg width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}">'
        f'<path d="M0 0h{WIDTH}v{HEIGHT}H0z" fill="var(--paper)"/>{"".join(inner)}</svg>'
    )
    return still(page, colors(), FONT)


def colors() -> dict[str, str]:
    """The light value of every custom property."""
    page = {name: pair[0] for name, pair in theme.PAGE.items()}
    marks = {name: four[0] for name, four in theme.PALETTE.items()}
    return page | marks | {f"{name}-t": four[1] for name, four in theme.PALETTE.items()}
