"""Whether a stretch of rows that runs on only with day and month exchanged leaves no doubt."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.stamps import DAY_MS
from reportgen.readings.swap_blocks import BACK, EXACT, NEAR, WRITTEN, Blocks, following, slack

COARSE_MS = DAY_MS // 2  # with fewer than two rows a day the time of day tells nothing
Bools = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, slots=True)
class Verdict:
    """Blocks `first` to `last` are to be exchanged: `sure`, or in doubt."""

    first: int
    last: int
    sure: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class _Case:
    """What the verdicts are made from; `counts` numbers every row of the table, if anything does."""

    blocks: Blocks
    choice: Bools
    mixed: bool
    counts: Ints | None

    def gap(self, edge: int, left: int, right: int) -> int:
        """Time from block `edge` to the next in the given readings [ms]."""
        return int(self.blocks.begins[edge + 1, right] - self.blocks.ends[edge, left])

    def kind(self, edge: int) -> int | None:
        """How the block after `edge` follows as chosen; None at either end of the file."""
        if not 0 <= edge < len(self.choice) - 1:
            return None
        gap = self.gap(edge, int(self.choice[edge]), int(self.choice[edge + 1]))
        return EXACT if self._counted(edge, gap) else int(following(np.asarray(gap), self.blocks.step))

    def _counted(self, edge: int, gap: int) -> bool:
        """Whether the gap is as long as the rows that are missing by their numbers."""
        rows = self.missing(edge)
        return rows > 1 and abs(gap - rows * self.blocks.step) <= slack(self.blocks.step)

    def missing(self, edge: int) -> int:
        """By how much the number of the row rises across an edge; 0 without a counter."""
        if self.counts is None:
            return 0
        return abs(int(self.counts[self.blocks.first[edge + 1]] - self.counts[self.blocks.last[edge]]))

    def against(self, edge: int) -> bool:
        """Whether the row numbers fit the times as written and not as exchanged."""
        if not 0 <= edge < len(self.choice) - 1:
            return False
        sides = [WRITTEN if self.blocks.open[at] else int(self.choice[at]) for at in (edge, edge + 1)]
        return self._counted(edge, self.gap(edge, sides[0], sides[1])) and self.kind(edge) != EXACT


def judge(blocks: Blocks, choice: Bools, mixed: bool, counts: Ints | None) -> list[Verdict]:
    """A verdict on every stretch that is swapped on the chosen way; one that only might be is left out.

    In a file that shows both orders no reading goes before the other: a date that runs on from no neighbour is in
    doubt however it was chosen.
    """
    case = _Case(blocks=blocks, choice=choice, mixed=mixed, counts=counts)
    verdicts = [verdict for first, last in _runs(choice, blocks.neutral) if (verdict := _of_run(case, first, last))]
    if mixed:
        lone = [at for at in np.flatnonzero(blocks.open & ~choice).tolist() if not _linked(case, at)]
        verdicts += [Verdict(first=at, last=at, sure=False) for at in lone]
    return sorted(verdicts, key=lambda verdict: verdict.first)


def _runs(choice: Bools, neutral: Bools) -> list[tuple[int, int]]:
    """First and last of the swapped blocks that stand together; a date such as 11/11 between them parts none."""
    runs: list[tuple[int, int]] = []
    for at in np.flatnonzero(choice).tolist():
        if runs and (neutral[runs[-1][1] + 1 : at]).all():
            runs[-1] = (runs[-1][0], at)
        else:
            runs.append((at, at))
    return runs


def _linked(case: _Case, at: int) -> bool:
    return any(kind is not None and kind <= NEAR for kind in (case.kind(at - 1), case.kind(at)))


def _of_run(case: _Case, first: int, last: int) -> Verdict | None:
    swapped = [at for at in range(first, last + 1) if case.choice[at]]
    unsettled = [at for at in swapped if case.blocks.open[at]]
    edges = [case.kind(edge) for edge in range(first - 1, last + 1)]
    lone = [at for at in unsettled if not _linked(case, at)]
    leaps_back = _leaps_back(case, first, last)
    if any(case.against(edge) for edge in range(first - 1, last + 1)):
        return Verdict(first=first, last=last, sure=False)
    if not unsettled:
        return Verdict(first=first, last=last, sure=True)
    if len(lone) == len(unsettled):
        in_order = BACK not in edges
        return Verdict(first=first, last=last, sure=False) if in_order and (leaps_back or case.mixed) else None
    sure = _sure(case, swapped, edges, leaps_back) and all(_leaps_back(case, at, at) for at in lone)
    return Verdict(first=first, last=last, sure=sure and not (lone and BACK in edges))


def _sure(case: _Case, swapped: list[int], edges: list[int | None], leaps_back: bool) -> bool:
    """Of a stretch some block of which runs on from a neighbour."""
    if len(swapped) > 1:
        return leaps_back or case.blocks.step <= COARSE_MS
    left, right = edges[0], edges[-1]
    if left is not None and right is not None and max(left, right) <= NEAR:
        return leaps_back or case.blocks.step <= COARSE_MS
    return leaps_back and EXACT in (left, right)


def _leaps_back(case: _Case, first: int, last: int) -> bool:
    """Whether the blocks first … last run back anywhere if they are left as written, or have no such date."""
    if not case.blocks.valid[first : last + 1, WRITTEN].all():
        return True
    for edge in range(max(first - 1, 0), min(last + 1, len(case.choice) - 1)):
        left = WRITTEN if first <= edge <= last else int(case.choice[edge])
        right = WRITTEN if first <= edge + 1 <= last else int(case.choice[edge + 1])
        if int(following(np.asarray(case.gap(edge, left, right)), case.blocks.step)) == BACK:
            return True
    return False
