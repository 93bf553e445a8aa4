"""The methods of damp, soil, light and harvest, in plain words."""

from __future__ import annotations

from reportgen.charts.method_types import Method

METHODS: tuple[Method, ...] = (
    Method(
        slug="moisture",
        page="damp",
        title="Moist air",
        text=(
            "A sensor tells relative humidity over liquid water at every temperature, below freezing too. From it and "
            "the temperature follow the pressure of the water vapour, the dew point over water and the frost point "
            "over ice, the grams of water in a cubic metre, and how much more the air could take up."
        ),
        formula=(
            "e = RH/100 · e_w(T)",
            "water in the air = e / (461.5 · T in kelvin)",
            "deficit = e_w(T) − e",
        ),
        sources=(
            "ASHRAE Handbook of Fundamentals 2017, chapter 1 (vapour pressure over water and ice, standard pressure)",
            "WMO-No. 8, Guide to Instruments and Methods of Observation: humidity over water at all temperatures",
        ),
        limit="Near 100 % most sensors stick or drift; the band of the sensor's accuracy stands beside each count.",
    ),
    Method(
        slug="dew",
        page="damp",
        title="Dew on the glazing",
        text=(
            "The inside of the glazing is colder than the air by its share of the way out. Dew forms while the dew "
            "point of the air (below 0 °C: its frost point) lies above that. Two shares are reckoned, for heat going "
            "up and going sideways; the first is the lower bound."
        ),
        formula=("T_glass = T_in − U · R (T_in − T_out), with R = 0.10 and 0.13 m²K/W",),
        sources=("ISO 6946: inside surface resistance, upward 0.10 and horizontal 0.13 m²K/W",),
        limit="A clear sky cools the glass further than this, so true hours are more rather than fewer.",
    ),
    Method(
        slug="mould",
        page="damp",
        title="Leaf-wet hours and grey-mould weather",
        text=(
            "Hours at 90 % and over are taken as hours in which leaves may be wet. A run of them, with dry breaks up "
            "to 4 hours, is put into an equation for grey mould by its length and mean temperature. Runs colder than "
            "12 °C are colder than the equation was made for; they are counted apart and never called high."
        ),
        formula=("logit = −2.647866 − 0.374927 W + 0.061601 W·T − 0.001511 W·T², classes at 0, 0.5 and 1.0",),
        sources=(
            "P. C. Sentelhas and others, Agricultural and Forest Meteorology 148 (2008): 90 % as leaf wetness",
            "J. C. Broome and others, Phytopathology 85 (1995) 97–102: grey mould on grape",
        ),
        limit="Made for grapes. It ranks nights; it is no probability for salad.",
    ),
    Method(
        slug="airing",
        page="damp",
        title="Would airing have dried it",
        text=(
            "Opening the vents dries the house only while there is less water vapour outside than inside. Those hours "
            "are counted among the damp ones. The air that comes in has to be warmed again."
        ),
        formula=("heat of airing = 0.33 · air changes · volume · (T_in − T_out)",),
        limit="It says that airing could have dried, not by how much.",
    ),
    Method(
        slug="soil",
        page="soil",
        title="The soil bed",
        text=(
            "A daily wave is fitted to soil and air over each three days: its height and how many hours the soil lags "
            "behind. Warmth given back at night is how much the bed cooled from 18 to 8 h, times what it holds. A "
            "probe 5 cm deep or deeper that swings with the air more, and sooner, than moist sand would let it is "
            "taken to hang in the air; where the column of the air is the damped and late one, the two look "
            "exchanged. Nothing is reckoned from either. A fan's heat is its airflow times what the air lost on the "
            "way."
        ),
        formula=(
            "T = mean + trend · t + a cos ωt + b sin ωt, ω = 2π a day",
            "given back = capacity · volume · (T_soil at 18 h − T_soil at 8 h)",
            "at depth z: swing · exp(−z/D), z/D · 24 h/2π later; D = √(2κ/ω), κ at most 1.0 · 10⁻⁶ m²/s",
            "heat of a duct = airflow · 1.2 kg/m³ · 1006 J/kgK · (T in − T out)",
        ),
        sources=(
            "H. S. Carslaw and J. C. Jaeger 1959, D. A. de Vries 1963 and G. S. Campbell 1985: how a wave is damped "
            "and delayed in soil",
            "R. G. Allen and others, FAO Irrigation and Drainage Paper 56, 1998, eq. 41: heat stored in soil",
        ),
        limit="The whole bed is taken as warm as the probe; much of the heat goes down, not into the air.",
        measured="Simulated beds: the kWh were about 1.6 times (1.1 to 3.0) what reached the air; an upper bound.",
    ),
    Method(
        slug="light",
        page="light",
        title="Day length and daily light",
        text=(
            "Day length is from the sun's upper edge rising to its upper edge setting, in refracting air. Daily light "
            "is summed from a light sensor, or worked out from the sun's power outdoors and how much the cover lets "
            "through. Without either the page knows the length of the day and not its clouds."
        ),
        formula=(
            "day length: the time the sun's centre stands above −0.833°",
            "daily light = Σ W/m² × 2.11 µmol/J × what the cover lets through",
            "clear sky = 1098 · cos z · exp(−0.059 / cos z) W/m²",
        ),
        sources=(
            "C. M. Britton and J. D. Dodd, Agricultural Meteorology 17 (1976) 1–7; others found 1.8 to 2.3",
            "B. Haurwitz, Journal of Meteorology 2 (1945): clear sky",
        ),
        limit="Worked out from sunlight outdoors, it is as good as the figure for what the cover lets through.",
    ),
    Method(
        slug="harvest",
        page="harvest",
        title="Harvest and its cost",
        text=(
            "Weights are added up by crop, bed and week. The heat of the whole winter is divided by all that was "
            "picked. Cost by the month is not shown: what is picked in April lived on January's heat."
        ),
        formula=("cost per kg = cost of heat over the winter / kg picked over the winter",),
        limit="Your hours of work are not in it.",
    ),
)
