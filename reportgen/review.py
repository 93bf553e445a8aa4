"""The review: every result, every finding, and its plain form, data/review.json (format 1)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reportgen.counsel import Counsel
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding
from reportgen.pages import SECTIONS
from reportgen.plain import plain
from reportgen.readings.sharing import place_named

FORMAT = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Review(Results):
    """The measured season with what is said of it."""

    counsel: Counsel

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Its findings, the weightiest first."""
        return self.counsel.findings

    def _share(self) -> dict[str, bool]:
        """What `[share]` lets out of the house, for those who gather reviews that were handed over whole; and whether
        words of this one name the place that it keeps private."""
        allowed = self.season.share.model_dump(exclude={"label"})
        return {**allowed, "place_named": place_named(self.readings, self.winters.last or "")}

    def to_dict(self) -> dict[str, Any]:
        """review.json: every key of the contract, null with a reason where a value could not be had."""
        season = self.season
        head: dict[str, Any] = {
            "title": season.title,
            "first_day": season.first_day.isoformat(),
            "last_day": season.last_day.isoformat(),
            "time_zone": season.time_zone,
            "currency": season.currency,
        }
        so_far = season.so_far
        document: dict[str, Any] = {
            "format": FORMAT,
            "season": head,
            "share": self._share(),
            "so_far": so_far.isoformat() if so_far else None,
        }
        document |= {name: plain(getattr(self, name)) for name in SECTIONS}
        document["levers"] = plain(self.counsel.grounds.levers)
        document["changes"] = plain(self.effects.changes)
        grounds = self.counsel.grounds
        document["events"] = plain(grounds.events)
        document["hold_advice"] = plain(grounds.hold_advice)
        document["balance"] = plain(grounds.balance)
        document["plan"] = plain(self.counsel.plan)
        document["answers"] = plain(self.counsel.answers)
        document["findings"] = plain(self.findings)
        return document
