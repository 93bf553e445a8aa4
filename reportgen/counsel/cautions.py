"""The usual cautions, in words that defer to local codes and licensed trades; each names the kind of guidance it is.

All are common safety guidance of fire services, gas and electrical safety bodies and product labels; none is ours.
"""

from __future__ import annotations

LOCAL = "Local codes and licensed trades come first."
FUEL = (
    "A heater that burns fuel in a closed house gives off carbon monoxide, and gases that harm plants. Keep a "
    "working carbon monoxide alarm, let fresh air in, and follow the maker's instructions (the usual guidance of "
    f"fire and gas safety bodies). {LOCAL}"
)
MAINS = (
    "Where mains power stands near water: residual-current protection, parts rated for outdoors, and no heater on an "
    f"extension lead (the usual guidance of electrical safety bodies). {LOCAL}"
)
ALONE = (
    "A heater or lamp that runs with nobody near can start a fire. Keep anything that burns well away from it, and "
    f"fit only what its maker allows to run alone (the usual guidance of fire services). {LOCAL}"
)
ROOF = (
    "Do not climb on or under a roof that carries snow, and do not stand on glazing to look at it (the usual "
    f"guidance of work safety bodies). {LOCAL}"
)
SPRAY = "Treat mould or pests only with what is allowed for that crop, by its label, which is the law in most places."
SEAL = (
    "Never seal a space in which something burns, and leave every flue and air inlet open (the usual guidance of "
    f"gas safety bodies). {LOCAL}"
)


USUAL = (FUEL, SEAL, MAINS, ALONE, ROOF, SPRAY)
_BRIEF = (
    (FUEL, "Fumes: carbon monoxide alarm, fresh air."),
    (SEAL, "Never seal a house in which something burns."),
    (MAINS, "Mains near water: residual-current protection."),
    (ALONE, "Fire: nothing that burns near it."),
    (ROOF, "Off the roof while it carries snow."),
    (SPRAY, "Only what the label allows."),
)


def parts(words: str) -> list[str]:
    """Each usual caution in these words, then what is none of them as it stands; nothing is lost."""
    rest = words.replace(LOCAL, "")
    found = [one for one in USUAL if _bare(one) in rest]
    for one in found:
        rest = rest.replace(_bare(one), "")
    rest = " ".join(rest.split())
    return [*map(_bare, found), *([rest] if rest else [])]


def brief(words: str) -> str:
    """The cautions in these words, each in a few, to stand beside a row; in full they stand below under *Take care*.
    What has no short form stands as it is."""
    few = {_bare(long): short for long, short in _BRIEF}
    return " ".join(few.get(part, part) for part in parts(words))


def _bare(words: str) -> str:
    return words.replace(LOCAL, "").strip()


def heating(fuels: set[str]) -> str:
    """The caution that goes with heating more, less or otherwise, by the fuels in the house."""
    burns = bool(fuels - {"electricity"})
    return " ".join(([FUEL] if burns else []) + ([MAINS] if "electricity" in fuels or not fuels else []))
