"""The methods of the record, the frost margin and the heat, in plain words."""

from __future__ import annotations

from reportgen.charts.method_types import Method

METHODS: tuple[Method, ...] = (
    Method(
        slug="record",
        page="record",
        title="From files to readings",
        text=(
            "Every line of every logger file is counted. A line is used, or set aside under one named reason: not a "
            "reading, unreadable time, repeated, outside the season, a dead row (nothing but 0 and error codes), an "
            "error code of the logger, impossible, interpolated (at least three decimals more than its file usually "
            "writes, in three rows running: computed, not measured), stuck, or a jump. Nothing is filled in, smoothed "
            "or guessed. Times are read in the clock you named for the logger and kept as instants, so the changes to "
            "and from summer time neither lose nor double an hour."
        ),
        formula=("lines read = lines used + lines set aside",),
        limit="A sensor that reads wrong by the same amount all winter leaves no trace; only a check beside it would.",
    ),
    Method(
        slug="hours",
        page="record",
        title="Hours above and below a line",
        text=(
            "Two neighbouring readings are joined by a straight line when they lie no further apart than three times "
            "the usual step (never less than 15 minutes, never more than 3 hours, in soil 6). Hours and degree-hours "
            "are measured on those joined lines exactly, so a log every minute and one every half hour of the same "
            "night agree. Time inside a longer gap counts nowhere, and a thermometer read once a day tells no night, "
            "no hours and no extremes: only its mean is printed. Every count stands beside the hours recorded, and "
            "beside the same count with all readings shifted up and down by the sensor's accuracy."
        ),
        formula=(
            "hours below L = sum over joined pairs of (t₂ − t₁) × share of the line from T₁ to T₂ that lies under L",
            "degree-hours below L = ∫ max(0, L − T) dt",
        ),
        limit="No accuracy given for a logger: no band, and the page says so.",
    ),
    Method(
        slug="frost",
        page="frost",
        title="Frost margin",
        text=(
            "The margin is the coldest air at the crop minus your frost line. Nights are counted from 18 to 9 h. For "
            "each crop only the time it stood in the bed counts, against the band of cold that harms it. What a plant "
            "stands shifts by 3 to 5 K within days of warmth (common practice, no source), so the mean minimum of "
            "the seven days before stands beside it. Hours without crop air are counted where it was under the "
            "frost line outdoors, and apart where outdoors is not known either; while there are any, the page does "
            "not say “never below”."
        ),
        formula=("margin = coldest crop air − frost line",),
        limit="It is air, not leaf: under a clear sky a leaf under thin cover can be colder than the air around it.",
    ),
    Method(
        slug="holding",
        page="frost",
        title="How cold may it get outside",
        text=(
            "The night minimum inside is set against the night minimum outside, using only nights since the house or "
            "its heating was last altered, without those on which the heat failed. In a house without heat a straight "
            "line is fitted through all of them. A thermostat bends that line: inside it stays level as long as the "
            "heater can hold, and mild nights without heat lie above. So in a heated house only nights with heat tell "
            "(where heat is not logged by the hour, those no more than 1 K above the minimum at which most of the "
            "colder nights stand), and a line is fitted only below the bend at which they leave their level. The limit "
            "is the lowest outdoor minimum at which the lower edge of what the next night may do still lies above the "
            "frost line."
        ),
        formula=(
            "T_in = a + b · T_out (least squares)",
            "lower edge = T_in − t(0.95, n − 2) · s · √(1 + 1/n + (T_out − mean)² / Σ(T_out − mean)²)",
            "heated: T_in = level − b · max(bend − T_out, 0), the bend by scan, ten nights or more below it; no limit "
            "unless b − t(0.95, n − 2) · s / √Σ(T_out − mean)² is over 0.1",
        ),
        sources=("N. R. Draper and H. Smith, Applied Regression Analysis, 3rd ed. 1998, prediction of a new value",),
        limit=(
            "Never extended beyond what the winter tested: if the limit lies below the coldest night seen, only “held "
            "down to” that night is printed. Never colder than a night that fell below the line. In a heated house "
            "never milder than a night that held, where none fell: it held, or only just where the lower edge had met "
            "the line. Winters much milder than those of the study are less surely told where heat is not logged."
        ),
        measured=(
            "108 simulated heated houses, each seen in several ways, then in four more winters, up to 9 K colder: of "
            "nights within 2 K above a limit 0.9 % (205 of 23\u202f654) fell below the frost line (aim: 5 % and less), "
            "of those within 2 K above the coldest night that held 2.0 % (438 of 21\u202f809), where it held only just "
            "9.7 % (180 of 1\u202f848). 12 of 440 limits were milder than the truth by over 2 K, at most by 2.9 K; the "
            "line through the colder half of all nights that stood here before: 160 of 570, at most by 12.8 K. 36 "
            "houses without heat: 1.1 % (76 of 6\u202f922) within 2 K, 1 of 181 limits too mild by over 2 K."
        ),
    ),
    Method(
        slug="heat",
        page="heat",
        title="Heat and its money",
        text=(
            "A meter is read by differences, a counter that began again is mended, deliveries and bills are turned "
            "into kWh by amount × heat value × efficiency. Sums that cover several days (a store, a bill, rare meter "
            "readings) are spread over those days by degree-hours below the aim of the day (without an aim, below the "
            "median night air beside the crop) and marked as spread; an hour outdoors that is not on record counts as "
            "the week around it. Of a store nothing is burnt before it was bought, nor in days before the season that "
            "have no outdoor record. It is priced first in, first out by what was paid. Where the record of a heater "
            "has a gap, what it gave lies between nothing and its rated power; if the gap was no colder outdoors than "
            "the coldest logged stretch of its length, its most is the largest mean power of such a stretch. A small "
            "heater known only as sums (under a tenth of the largest logged hour) counts in a night with between "
            "nothing and its rated power. Lamps, fans and dehumidifiers heat the house too: they are counted in the "
            "heat that went in, and shown apart."
        ),
        formula=("heat = bought × heat value × efficiency",),
        limit="A spread sum says nothing about a single day. A thermostat or a house that was changed inside a gap can "
        "break the bound on it.",
    ),
)
