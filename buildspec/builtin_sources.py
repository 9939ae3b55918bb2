"""Where each figure of the built-in practice comes from, printed beside it."""

from __future__ import annotations

SOURCES: dict[str, str] = {
    "ampacity": "33 CFR 183.425 Table 5, as good practice",
    "insulation": "33 CFR 183.425 Table 5, 105 °C column",
    "wire_margin": "FAA AC 43.13-1B par. 11-48: the conductor carries more than the device's rating",
    "fuse_share": "chassis maker's body-builder guide (2004): 80 % in the cabin, 60 % in the engine bay",
    "drop_limit": "ABYC E-11 as publicly quoted: 3 % critical, 10 % general, both ways",
    "fuse_gates": "ISO 8820-3, -4, -5 from memory; blade maxima agree with relay sheets; a maker's curve replaces them",
    "lowest_voltage": "common practice, no source: lowest input that most converters accept",
    "resting_voltage": "battery at about half charge; owner's table in trade papers",
    "unprotected": "33 CFR 183.455(b): 7 in, 40 in enclosed; ABYC E-11 as publicly quoted: 72 in sheathed",
    "fuse_lead": "common practice, no source",
    "service_loop": "common practice, no source",
    "local": "common practice, no source",
    "min_wire": "ISO 10133:2012 par. 7.7: 1 mm² for a conductor run separately",
    "signal_wire": "ISO 10133:2012 par. 7.7: 0.75 mm² inside a multi-core sheath",
    "signal_fuse": "common practice, no source",
    "body_resistance": "common practice, no source; measure it at commissioning",
    "contact_resistance": "common practice, no source",
    "alternator_share": "trade wiki: 50 A of a 150 A alternator unless proven",
    "signal_allowance": "nothing is drawn from a vehicle signal unless its maker allows it",
    "battery_cables": "common practice, no source",
    "support_spacing": (
        "ISO 10133:2012 par. 7.3, 7.4 (public excerpt); ABYC E-11 has 18 in, 46 CFR 183.340 and "
        "AC 43.13-1B 11-96(a) 24 in"
    ),
    "clearance": (
        "fuel: FAA AC 43.13-1B 11-96(w), 2 in at the least, 6 in wanted; exhaust, moving parts, brake: common "
        "practice, no source"
    ),
    "loom_spare": "common practice, no source; marine advice is 20 to 50 % of spare terminals",
    "key_off_current": "published limits run from 30 mA to 120 mA by vehicle age; 50 mA is the usual default",
    "retorque": "common practice, no source",
}
