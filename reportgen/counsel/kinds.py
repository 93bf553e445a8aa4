"""Every kind of finding, and the making of them: to add a kind is to add its entry here, with the function that makes
it.

A finding's slug is its kind's, with the diary's line behind it where one lever each has its own (worth-keeping-7).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.counsel import (
    changes,
    changes_open,
    damp,
    damp_nights,
    dangers,
    frost,
    frost_next,
    happened,
    harvest,
    harvest_beds,
    harvest_next,
    heat,
    heat_more,
    light,
    perfect,
    record,
    soil,
    the_balance,
    the_hold,
    winters,
)
from reportgen.counsel import record_sensors as sensors
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding, Said, Stake

Maker = Callable[[Facts], Sequence[Said] | Said | None]


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """One kind of finding.

    `told`: the season in which it is told; silent in every other. `anchors`: uids of the charts it links to, the usual
    one first. `paths`: dotted paths of review.json behind its number. `make`: what it says of a season.
    """

    page: str
    stake: Stake
    told: str
    anchors: tuple[str, ...]
    paths: tuple[str, ...]
    make: Maker

    def findings(self, slug: str, facts: Facts) -> tuple[Finding, ...]:
        """What this kind says of a season, as findings of that slug."""
        said = self.make(facts)
        parts = () if said is None else (said,) if isinstance(said, Said) else said
        return tuple(self._finding(slug, one) for one in parts)

    def _finding(self, slug: str, said: Said) -> Finding:
        return Finding(
            slug=slug if said.line is None else f"{slug}-{said.line}",
            page=self.page,
            about=said.about,
            claim=said.claim,
            evidence=said.evidence,
            how_sure=said.how_sure,
            next_step=said.next_step,
            caution=said.caution,
            holds_for=said.holds_for,
            figure=said.figure,
            figure_note=said.figure_note,
            token=said.token,
            anchor=said.anchor or self.anchors[0],
            stake=said.stake or self.stake,
            weight=said.weight,
            subject=said.subject,
            sources=said.sources,
        )


def kind(page: str, stake: Stake, told: str, anchors: str, make: Maker, *paths: str) -> Kind:
    """A kind; `anchors` stand in one string with spaces."""
    return Kind(page=page, stake=stake, told=told, anchors=tuple(anchors.split()), paths=paths, make=make)


_FROST = {
    "cold-event": kind("frost", "crop at risk", "the line was crossed, or the heat failed",
                       "frost_worst frost_failures", happened.cold_events, "events"),
    "coldest-moment": kind("frost", "record", "crop air was logged, and no event tells of its coldest moment",
                           "frost_nights", frost.closest, "frost.minimum.temperature_c", "frost.minimum.at"),
    "if-the-heat-fails": kind("frost", "crop at risk", "the house's own behaviour is known", "frost_after",
                              frost.if_it_fails, "frost.after_failure"),
    "without-any-heat": kind("frost", "money", "a heated house's own behaviour is known", "frost_bare",
                             frost.without_heat, "frost.without_heat_minimum_c"),
    "how-cold-it-may-get": kind("frost", "crop at risk", "enough nights since the last change", "frost_limit",
                                frost_next.limit, "frost.holding_limit"),
    "which-alarm-line": kind("frost", "crop at risk", "an alarm would have been needed", "frost_alarms",
                             frost_next.alarm_line, "frost.alarms"),
    "time-to-open-up": kind("frost", "growth", "three hot days running", "frost_hot", frost_next.hot,
                            "frost.hot_hours"),
    "while-nobody-was-there": kind("frost", "crop at risk", "a close call or blind hours while away", "frost_nights",
                                   frost_next.away, "frost.minimum"),
    "hours-nobody-watched": kind("frost", "record", "hours without crop air, cold or unknown outdoors",
                                 "frost_gaps frost_nights", frost.unwatched, "frost.unrecorded_cold_hours",
                                 "frost.unrecorded_unknown_hours"),
    "nothing-wrong": kind("frost", "good news", "a whole record and no harm in it", "frost_nights",
                          perfect.nothing_wrong, "frost.minimum.temperature_c", "frost.nights"),
}  # fmt: skip
_HEAT = {
    "fire-or-fumes": kind("heat", "safety", "fumes stayed in a tightened house, or the power cut out", "heat_sources",
                          dangers.dangers, "events"),
    "fumes-in-the-house": kind("heat", "safety", "a burner whose fumes stay inside, and no event tells of it",
                               "heat_sources", heat_more.unvented, "heat.sources"),
    "the-hold": kind("heat", "money", "a heated house whose thermostat or price of a degree is known", "heat_price",
                     the_hold.the_hold, "hold_advice", "heat.price_of_hold"),
    "heat-loss": kind("heat", "money", "nights heated right through", "heat_loss", heat.loss, "heat.loss_w_per_k"),
    "heat-above-the-aim": kind("heat", "money", "heat given above the hold", "heat_weeks", heat.over_target,
                               "heat.above_target_kwh"),
    "heater-size": kind("heat", "good news", "the hardest hours can be worked out", "heat_line", heat.size,
                        "heat.heater_needed_w"),
    "heater-flat-out": kind("heat", "crop at risk", "a heater at its full power, and no size told", "heat_sources",
                            heat_more.flat_out, "heat.sources"),
    "heat-not-known": kind("heat", "record", "nothing of the heating was written down", "heat_missing",
                           heat_more.no_heat_known, "heat.reasons"),
}  # fmt: skip
_DAMP = {
    "hours-too-damp": kind("damp", "damp", "humidity was logged", "damp_months", damp.hours, "damp.hours_above_high"),
    "mould-index-did-not-fit": kind("damp", "damp", "mould was found where no wet spell ranked", "damp_spells",
                                    damp.index_did_not_fit, "damp.grey_mould_spells"),
    "airing-or-drying": kind("damp", "damp", "humidity logged outdoors too", "damp_airing", damp.airing,
                             "damp.airing_hours"),
    "what-the-dehumidifier-did": kind("damp", "damp", "a dehumidifier with a logger", "damp_dryer", damp.dryer,
                                      "damp.hours_recorded"),
    "damp-after-watering": kind("damp", "damp", "nights after watering were damper", "damp_watering",
                                damp_nights.watering, "damp.hours_above_high"),
    "damp-with-the-heater-off": kind("damp", "damp", "nights without heat were damper", "damp_unheated",
                                     damp_nights.heater_off, "damp.hours_above_high"),
}  # fmt: skip
_SOIL_AND_LIGHT = {
    "bed-below-the-root-line": kind("soil", "growth", "a probe in the bed", "soil_days", soil.cold,
                                    "soil.hours_below_aim", "soil.mean_c"),
    "fan-through-the-bed": kind("soil", "good news", "a fan that blows through the bed", "soil_fan", soil.fan,
                                "soil.mean_c"),
    "bed-drained-before-the-cold": kind("soil", "growth", "the bed cooled before the coldest night", "soil_days",
                                        soil.drained, "soil.mean_c", "frost.minimum.at"),
    "days-under-ten-hours": kind("light", "growth", "dark days in the season", "light_length", light.dark,
                                 "light.days_under_ten_hours"),
    "daily-light": kind("light", "growth", "a light sensor", "light_days", light.daily, "light.mean_daily_light_mol"),
    "what-a-lamp-would-add": kind("light", "money", "a lamp, and days short of light", "light_lamp", light.lamp,
                                  "light.lamp_hours_needed"),
    "cover-lets-less-through": kind("light", "growth", "light inside and out, and less than the cover should let "
                                    "through", "light_days", light.cover, "light.mean_daily_light_mol"),
    "light-before-warmth": kind("light", "growth", "warmth was there and light was not", "light_days",
                                light.before_warmth, "light.mean_daily_light_mol", "light.days_under_ten_hours"),
}  # fmt: skip
_CHANGES = {
    "worth-keeping": kind("changes", "good news", "a lever to keep, perhaps on a condition",
                          "changes_effects changes_rows", changes.kept, "levers"),
    "better-left-undone": kind("changes", "growth", "a lever that hurt, or that is not safe here",
                               "changes_effects changes_rows", changes.undone, "levers"),
    "not-worth-it": kind("changes", "money", "a lever that did nothing that matters",
                         "changes_effects changes_rows", changes.not_worth_it, "levers"),
    "cannot-tell": kind("changes", "record", "levers that stay open", "changes_rows", changes_open.cannot_tell,
                        "levers"),
    "no-change-noted": kind("changes", "record", "no change in the diary", "changes_missing", changes_open.none,
                            "changes"),
    "no-hope-noted": kind("changes", "record", "changes without a hope that a logger can judge",
                          "changes_rows", changes_open.no_hope, "changes"),
    "something-unwritten": kind("changes", "record", "a quiet date that looks like a change", "changes",
                                changes_open.unwritten, "record.channels"),
}  # fmt: skip
_HARVEST = {
    "the-balance": kind("harvest", "money", "money or needless heat can be told", "harvest_running harvest_weeks",
                        the_balance.the_balance, "balance"),
    "loss-by-cause": kind("harvest", "crop lost", "a loss with a cause that is not the cold", "harvest_beds",
                          happened.losses, "events"),
    "harvest-not-weighed": kind("harvest", "record", "no harvest book", "harvest_missing", harvest.not_weighed,
                                "harvest.reasons.kg"),
    "fed-the-household": kind("harvest", "growth", "the household's need is given", "harvest_weeks", harvest.household,
                              "harvest.share_of_household", "harvest.weeks_at_half_or_more"),
    "longest-gap": kind("harvest", "growth", "two empty weeks running", "harvest_weeks", harvest.gap,
                        "harvest.longest_gap_weeks"),
    "lost-harvest": kind("harvest", "crop lost", "a twentieth and more was lost, and no event tells of it",
                         "harvest_crops", harvest.lost, "harvest.kg"),
    "best-use-of-ground": kind("harvest", "growth", "one crop gave half as much again for its ground", "harvest_crops",
                               harvest_beds.best_ground, "harvest.crops"),
    "sown-in-time": kind("harvest", "growth", "of two sowings before midwinter the later was too late",
                         "harvest_beds", harvest_beds.before_dark, "harvest.crops"),
    "empty-beds": kind("harvest", "growth", "ground lay bare for four weeks and more", "harvest_beds",
                       harvest_beds.empty,
                       "harvest.crops"),
    "delivery-lasts": kind("harvest", "record", "fuel by bottle, can or sack, and a heat loss", "harvest_delivery",
                           harvest_next.delivery_lasts, "heat.loss_w_per_k"),
}  # fmt: skip
_WINTERS = {
    f"than-last-winter-{key.replace('_', '-')}": kind(
        "winters", "growth", f"{words} at equal weather", "winters_rows", winters.than_last(key), "winters.rows"
    )
    for key, words in (
        ("lift", "night warmth differs"),
        ("heat", "heat differs"),
        ("night_humidity", "humidity differs"),
        ("soil_mean", "the bed differs"),
    )
} | {
    "no-last-winter": kind(
        "winters", "record", "no last winter was given", "winters_missing", winters.no_last, "winters.reasons.last"
    )
}
_RECORD = {
    "nothing-recorded": kind("record", "record", "no logger gave a reading", "record", record.nothing,
                             "record.channels"),
    "longest-gap-in-the-record": kind("record", "record", "a gap of a day and more", "record_gaps", record.gap,
                                      "record.channels"),
    "read-too-seldom": kind("record", "record", "readings too far apart for a night", "record_channels",
                            sensors.seldom, "record.channels"),
    "readings-set-aside": kind("record", "record", "readings were set aside", "record_channels", sensors.aside,
                               "record.files"),
    "loggers-disagree": kind("record", "record", "two loggers of one place differ by more than they may",
                             "record_agreement", sensors.disagree, "record.channels"),
    "sensor-reads-off": kind("record", "record", "the grower's own check shows a sensor off", "record_channels",
                             sensors.ice, "record.channels"),
    "no-outdoor-logger": kind("record", "record", "nothing was logged outdoors", "record_channels", sensors.outdoors,
                              "record.channels"),
    "no-accuracy-given": kind("record", "record", "a sensor's ± is not in season.toml", "record_channels",
                              sensors.accuracy, "record.channels"),
}  # fmt: skip
KINDS: Mapping[str, Kind] = MappingProxyType(
    _FROST | _HEAT | _DAMP | _SOIL_AND_LIGHT | _CHANGES | _HARVEST | _WINTERS | _RECORD
)


def made(facts: Facts, kinds: Mapping[str, Kind] = KINDS) -> tuple[Finding, ...]:
    """What every kind says of a season, in the order of the kinds."""
    return tuple(finding for slug, one in kinds.items() for finding in one.findings(slug, facts))


def kind_of(slug: str) -> Kind:
    """The kind of a finding.

    Raises:
        KeyError: No such kind.
    """
    return KINDS[slug if slug in KINDS else re.sub(r"-\d+$", "", slug)]
